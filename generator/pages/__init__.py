"""From findings to pages: what each template is given, and the one renderer."""
