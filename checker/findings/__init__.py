"""Rules in force applied to a site: outcome, parts, margin, working, needs."""
