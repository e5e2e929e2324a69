"""What was read, judged and built, in plain data: for a command's JSON and for a program."""
