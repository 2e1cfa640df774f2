"""Linux: the kernel's own answers, over netlink, ioctl and /proc."""
