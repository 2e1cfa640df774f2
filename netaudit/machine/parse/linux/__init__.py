"""What Linux says: netlink messages, and the texts of proc and sysfs."""
