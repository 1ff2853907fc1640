;;; rig-mode.el --- Fishing rigs in plain text  -*- lexical-binding: t; -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "28.1") (eglot "1.9"))
;; Keywords: languages

;;; Commentary:

;; Colours for rig files, and `snell serve' through eglot.  README.md beside
;; this file says how the same is had in the `rig' fences of Markdown pages.

;;; Code:

(require 'rig-words)

(defgroup rig nil
  "Fishing rigs in plain text."
  :group 'languages)

(defcustom rig-program "snell"
  "The program that reads rigs: its name, or its whole path."
  :type 'string)

(defconst rig-name "[[:alpha:]][[:alnum:]-]*")

(defun rig--words (words)
  "A pattern for WORDS that are not part of a longer word."
  (concat "\\_<" (regexp-opt words t) "\\_>"))

(defvar rig-font-lock-keywords
  `((,(concat "^" (regexp-opt rig-kinds t) "[ \t]+\\(" rig-name "\\)\\(?:[ \t]+\\(from\\)[ \t]+\\(" rig-name "\\)\\)?")
     (1 font-lock-keyword-face)
     (2 font-lock-type-face)
     (3 font-lock-keyword-face nil t)
     (4 font-lock-type-face nil t))
    (,(concat "^[ \t]*" (rig--words (append rig-forms '("add" "remove" "use")))) 1 font-lock-keyword-face)
    (,(concat "^[ \t]*" (rig--words rig-keys)) 1 font-lock-variable-name-face)
    (,(concat "[0-9][ \t]*\\(" (regexp-opt rig-units) "\\(?:/" (regexp-opt rig-units) "[23]?\\)?\\|[xX%°]\\)\\_>")
     1 font-lock-type-face)
    ("\\_<[0-9]\\{4\\}\\(?:[-‑–—−][0-9]\\{2\\}\\)\\{2\\}\\_>" . font-lock-constant-face)
    ("\\(?:\\_<\\|#\\)[0-9]+\\(?:[.,/][0-9]+\\)?[¼½¾⅓⅔⅛⅜⅝⅞]?" . font-lock-constant-face)
    (,(rig--words (append rig-joints '("from" "between" "about" "under" "least" "most" "is" "not" "and" "or")))
     . font-lock-keyword-face)
    (,(rig--words rig-measures) . font-lock-function-name-face)
    (,(rig--words rig-values) . font-lock-builtin-face))
  "Colours of rig files.")

(defvar rig-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?/ ". 12" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?- "_" table)
    ;; An inch mark behind a number opens no text; see `rig--propertize'.
    (modify-syntax-entry ?\" "\"" table)
    table))

(defconst rig--propertize
  (syntax-propertize-rules
   ("[0-9¼½¾⅓⅔⅛⅜⅝⅞]\\(\"\\)" (1 ".")))
  "Tells inch marks from quotes.")

;;;###autoload
(define-derived-mode rig-mode prog-mode "Rig"
  "Major mode for fishing rigs in plain text."
  (setq-local comment-start "// "
              comment-end ""
              comment-start-skip "//+[ \t]*"
              indent-tabs-mode nil
              tab-width 2
              indent-line-function #'indent-relative
              font-lock-defaults '(rig-font-lock-keywords nil t)
              syntax-propertize-function rig--propertize
              imenu-generic-expression
              (list (list nil (concat "^" (regexp-opt rig-kinds) "[ \t]+\\(" rig-name "\\)") 1))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.rig\\'" . rig-mode))

(defun rig--contact (&optional _interactive)
  "The command that starts the server."
  (list rig-program "serve"))

;;;###autoload
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(rig-mode . rig--contact)))

(provide 'rig-mode)
;;; rig-mode.el ends here
