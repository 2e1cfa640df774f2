"""Numbers without judgement: copper, fibre, buses, pools, goodput."""
