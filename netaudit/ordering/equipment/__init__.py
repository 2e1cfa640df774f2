"""What cables plug into: modules, panels and plates, ports left free, and the switch to look for."""
