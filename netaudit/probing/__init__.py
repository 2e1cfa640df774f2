"""The conversation with this machine and the storage: what is asked, in which order, for how long."""
