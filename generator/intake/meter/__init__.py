"""Files as meters, loggers and cameras write them → series of readings; what is not said is asked for."""
