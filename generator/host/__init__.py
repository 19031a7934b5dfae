"""The one place that knows MkDocs and its theme: from a `Site` to a folder of plain files."""
