"""The models of the records, a module a record type; what lies between fields is in rules/."""
