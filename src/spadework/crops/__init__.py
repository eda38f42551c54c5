"""Crop sheets (TOML) and their loader."""
