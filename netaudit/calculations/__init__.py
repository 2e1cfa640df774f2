"""Numbers without judgement: copper, fibre, made-up cables, buses, pools, goodput, what channels lose."""
