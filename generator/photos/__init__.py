"""Photos: an original's bytes in, pictures fit to be published out.

Nothing of an original leaves this package but its pixels: turned upright, in sRGB, encoded anew.
"""
