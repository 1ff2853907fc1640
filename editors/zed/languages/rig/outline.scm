; The rigs, flies and waters of a file, for the outline panel.

(block
  (kind) @context
  name: (name) @name) @item
