"""Charts as descriptions: numbers, roles and names, from which stills and live charts are drawn."""
