;;; rig-words.el --- The words of rig files  -*- lexical-binding: t; -*-

;; Made by `cargo refresh'.

;;; Code:

(defconst rig-kinds
  '(@kinds@)
  "Words that open a block.")

(defconst rig-forms
  '(@forms@)
  "Words that open a line with a form of its own.")

(defconst rig-keys
  '(@keys@)
  "Words that open a line of a block.")

(defconst rig-joints
  '(@joints@)
  "Joining words.")

(defconst rig-units
  '(@units@)
  "Units of quantities.")

(defconst rig-measures
  '(@measures@)
  "What can be asked of a rig and its parts.")

(defconst rig-values
  '(@values@@colours@)
  "Methods, casts, colours.")

(provide 'rig-words)
;;; rig-words.el ends here
