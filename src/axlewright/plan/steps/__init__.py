"""The work of a trouble: which jobs a course comes to, in what time, with what, and how the day ends."""
