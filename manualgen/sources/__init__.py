"""Where text comes from: a folder or a git revision, with the path rules and bounds."""
