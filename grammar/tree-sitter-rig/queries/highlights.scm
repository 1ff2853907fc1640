(comment) @comment
(text) @string
(block title: (text) @markup.heading)

["use" "from" "change"] @keyword
(kind) @keyword.type
(bind_key) @keyword
(claim_key) @keyword
(joint) @keyword.operator
(condition) @keyword.operator
(operator) @operator
["=" "-"] @operator
["(" ")"] @punctuation.bracket

(key) @property
(block name: (name) @type.definition)
(block base: (name) @type)
(bind name: (name) @variable)
(path (name) @variable)
(target (name) @variable)
(part) @variable.member
(call function: (name) @function)

[(number) (size) (count) (day)] @number
(unit) @type.builtin

(malformed) @error
