"""What the data functions of pages compute beyond the findings: pure functions, a file for each idea."""
