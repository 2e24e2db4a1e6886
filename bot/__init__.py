"""Broodpost: an adviser by text message for smallholders who brood and raise broiler chicks."""
