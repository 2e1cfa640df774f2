"""The plan as a graph of ports: channels, links, networks, paths."""
