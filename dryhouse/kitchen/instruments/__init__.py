"""Instruments that report by themselves: a scale or a logger, read from a file that grows or from a serial port."""
