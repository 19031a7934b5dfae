"""An edition as a file of its own: with the records that it rests on, and taken apart to be verified."""
