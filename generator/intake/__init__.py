"""What comes in: new benches and records, meter files, older results."""
