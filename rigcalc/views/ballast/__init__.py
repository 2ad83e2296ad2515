"""The ballast app: where the weight should go, a plan in pieces, tyres, and the slip test that proves it."""
