"""The database: tables, sessions, reading a case, applying writes."""
