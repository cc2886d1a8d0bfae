"""For people who keep rulesets: what is wrong with one, what it holds, what a change of it does."""
