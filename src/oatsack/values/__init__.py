"""The words of Oatsack as frozen values, one file per word."""
