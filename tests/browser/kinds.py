"""One page of each kind of the demo, drafts among them: what every test of all kinds walks."""

from __future__ import annotations

KINDS = {
    "front": "",
    "report": "r/fuse-holders-30a/",
    "report of two charts": "r/panel-sockets-12v/",
    "older edition": "r/fuse-holders-30a/1/",
    "draft": "r/sockets-worn/",
    "withdrawn": "r/ring-terminals-m6/",
    "history": "r/fuse-holders-30a/history/",
    "how": "r/fuse-holders-30a/1/how/okvarn-ih30/",
    "methods": "m/",
    "method": "m/closed-box-heating/",
    "version": "m/closed-box-heating/2/",
    "item": "i/okvarn-ih30/",
    "comparison": "compare/",
    "changes": "changes/",
    "corrections": "corrections/",
    "glossary": "glossary/",
    "by hand": "about/",
    "wrong address": "404.html",
}
"""Kind of page to an address under the demo's site."""
