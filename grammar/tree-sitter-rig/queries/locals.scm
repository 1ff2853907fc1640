; Names are looked up in the whole file, so the file is the only scope.
(source_file) @local.scope

(block name: (name) @local.definition)
(bind name: (name) @local.definition)

(block base: (name) @local.reference)
(target (name) @local.reference)
(path . (name) @local.reference)
