"""Search that costs a reader nothing before the first letter.

The theme's script fetches its index on every page and hands it to a worker. We leave it an index with the
same settings and no documents, and put the documents beside it; our worker (`assets/search-worker.js`)
fetches them, and the theme's own worker, on the first query that is not empty.
"""

from __future__ import annotations

import json
from pathlib import Path

INDEX = "search/search_index.json"
DOCUMENTS = "search/documents.json"


def defer_index(site: Path) -> None:
    """Move the documents of the search index out of the file that every page fetches.

    Args:
        site: The folder of the built site; one without an index is left as it is.
    """
    index = site / INDEX
    if not index.is_file():
        return
    whole = index.replace(site / DOCUMENTS)
    settings = json.loads(whole.read_text(encoding="utf-8"))["config"]
    index.write_bytes(json.dumps({"config": settings, "docs": []}, ensure_ascii=False).encode())
