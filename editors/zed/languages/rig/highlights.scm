; The colours of grammar/tree-sitter-rig, by the names that Zed has for them.

(comment) @comment
(text) @string
(block title: (text) @title)

["use" "from" "change"] @keyword
(kind) @keyword
(bind_key) @keyword
(claim_key) @keyword
(joint) @keyword
(condition) @keyword
(operator) @operator
["=" "-"] @operator
["(" ")"] @punctuation.bracket

(key) @property
(block name: (name) @type)
(block base: (name) @type)
(bind name: (name) @variable)
(path (name) @variable)
(target (name) @variable)
(part) @property
(call function: (name) @function)

[(number) (size) (count) (day)] @number
(unit) @constant
