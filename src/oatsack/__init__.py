"""Oatsack provisions multi-day walks."""
