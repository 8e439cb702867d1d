"""The rule author's page: what the rule files say wrong, leave open and would answer otherwise."""
