; extends

; For editors that do not go by the first word behind a fence of themselves: `rig` and `rig alone` are both rigs.
(fenced_code_block
  (info_string (language) @_language)
  (code_fence_content) @injection.content
  (#eq? @_language "rig")
  (#set! injection.language "rig"))
