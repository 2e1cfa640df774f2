"""Rules about cabling: is each cable good enough and short enough for what its ports will run."""
