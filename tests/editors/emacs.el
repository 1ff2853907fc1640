;;; emacs.el --- Rigs in Emacs, held against what must be seen  -*- lexical-binding: t; -*-

;;; Commentary:

;;   emacs --batch -l emacs.el PROJECT WATER
;;
;; PROJECT is the top of the project, WATER a copy of the folder beside this
;; file that may be changed.

;;; Code:

(package-initialize)
(setq project-folder (pop command-line-args-left)
      water-folder (pop command-line-args-left)
      make-backup-files nil
      auto-save-default nil)
(add-to-list 'load-path (expand-file-name "editors/emacs" project-folder))
(require 'eglot)
(require 'flymake)
(require 'rig-mode)
(require 'markdown-mode)
(require 'seq)
(require 'cl-lib)

;; As editors/emacs/README.md says for pages of Markdown.
(add-to-list 'eglot-server-programs '((markdown-mode gfm-mode) . ("snell" "serve")))

(setq eglot-sync-connect 60
      eglot-autoshutdown t
      eglot-send-changes-idle-time 0
      eglot-confirm-server-initiated-edits nil
      longest 60)

(defun hold (what ok seen)
  "Say that WHAT holds, or end where it is not OK and tell what was SEEN."
  (unless ok
    (message "emacs: %s does not hold; seen: %S" what seen)
    (kill-emacs 1))
  (princ (format "holds: %s\n" what)))

(defun same (what seen wanted)
  "Hold WHAT: what was SEEN is what was WANTED."
  (hold what (equal seen wanted) seen))

(defun wait-for (what test)
  "Wait for WHAT until TEST says so."
  (let ((until (+ (float-time) longest)))
    (while (not (funcall test))
      (when (> (float-time) until)
        (message "emacs: waited in vain for %s; findings: %S" what (findings))
        (kill-emacs 1))
      (pass-on)
      (accept-process-output nil 0.05)
      (flymake-start))))

(defun pass-on ()
  "Tell the server what was changed.  Without a window Emacs is never idle, which eglot waits for."
  (when (eglot-managed-p)
    (eglot--signal-textDocument/didChange)))

(defun line (number)
  "The text of the line NUMBER."
  (save-excursion
    (goto-char (point-min))
    (forward-line (1- number))
    (buffer-substring-no-properties (line-beginning-position) (line-end-position))))

(defun go (number word)
  "Put point on the first WORD of the line NUMBER."
  (goto-char (point-min))
  (forward-line (1- number))
  (search-forward word (line-end-position))
  (goto-char (match-beginning 0)))

(defun findings ()
  "The findings of the buffer: line, marked text."
  (sort (mapcar (lambda (one)
                  (list (line-number-at-pos (flymake-diagnostic-beg one))
                        (buffer-substring-no-properties (flymake-diagnostic-beg one) (flymake-diagnostic-end one))))
                (flymake-diagnostics))
        (lambda (a b) (< (car a) (car b)))))

(defun visit (name say size)
  "Visit NAME, whose findings stand in the lines SAY and SIZE."
  (switch-to-buffer (find-file-noselect (expand-file-name name water-folder)))
  (apply #'eglot (eglot--guess-contact))
  (wait-for (concat "findings in " name) (lambda () (>= (length (findings)) 2)))
  (same (concat name ": findings stand on their words, also behind an emoji")
        (findings)
        `((,say "lenght") (,size "6 x"))))

(defun told (number word)
  "Hover over WORD in the line NUMBER tells of it."
  (go number word)
  (let* ((answer (jsonrpc-request (eglot-current-server) :textDocument/hover (eglot--TextDocumentPositionParams)))
         (text (format "%S" answer)))
    (hold (concat "hover tells of " word) (string-match-p "mm" text) text)))

(defun completes (number)
  "A key is completed on a new line behind the line NUMBER."
  (goto-char (point-min))
  (forward-line number)
  (insert "  tip\n")
  (forward-char -1)
  (let* ((there (eglot-completion-at-point))
         (words (all-completions "tip" (nth 2 there))))
    (hold "completion knows `tippet'" (seq-some (lambda (word) (string-prefix-p "tippet" word)) words) words))
  (delete-region (line-beginning-position) (1+ (line-end-position))))

(defun mend (number word wanted)
  "Mend the finding on WORD in the line NUMBER by the entry that says WANTED."
  (go number word)
  (let ((before (line number))
        (completing-read-function
         (lambda (_prompt choices &rest _)
           (or (seq-find (lambda (choice) (string-match-p (regexp-quote wanted) choice))
                         (all-completions "" choices))
               (error "No mend says %s" wanted))))
        ;; As if a key had been pressed: after a mouse, eglot would open a menu.
        (last-nonmenu-event ?m))
    (eglot-code-actions (point) (+ (point) (length word)) nil t)
    (wait-for (format "a mend of line %d" number) (lambda () (not (equal before (line number)))))))

(defun mended (say size)
  "Mend the findings in the lines SAY and SIZE."
  (mend say "lenght" "length")
  (same "a word behind an emoji is mended" (line say) "  say     \"🎣🐟 {gap.length} is too close\"")
  (mend size "6 x" "6X")
  (same "a size is mended" (line size) "  tippet  40 in  of 6X fluoro")
  (wait-for "the findings to go, but for what the mended rule says"
            (lambda () (equal (mapcar #'cadr (findings)) '("20 in"))))
  (princ "holds: findings go once they are mended\n"))

(defun laid-out (last)
  "The file is laid out; the line LAST shows it."
  (same "a line to lay out is there" (line last) "  point bracken")
  (eglot-format-buffer)
  (same "the file is laid out" (line last) "  point   bracken"))

(defun in-file (what name number wanted)
  "Hold WHAT: the line NUMBER of the file NAME is about to be WANTED."
  (with-current-buffer (find-file-noselect (expand-file-name name water-folder))
    (same what (line number) wanted)))

(defun renamed ()
  "A fly is renamed here and in the file that it stands in."
  (pass-on)
  (go 21 "slate")
  ;; Before other files are changed, eglot asks.
  (cl-letf (((symbol-function 'y-or-n-p) #'always))
    (eglot-rename "pewter"))
  (same "the rig takes the fly by its new name" (line 21) "  dropper 6 in   with pewter")
  (in-file "the fly in the other file has it" "flies.rig" 3 "fly pewter \"slate spider\"")
  (in-file "a rig on a page has it" "article.md" 28 "  dropper 6 in   with pewter"))

(defun coloured (number word face)
  "WORD in the line NUMBER has FACE."
  (font-lock-ensure)
  (go number word)
  (let ((seen (get-text-property (point) 'face)))
    (hold (format "`%s' has its colour" word) (memq face (ensure-list seen)) seen)))

(princ (format "Emacs %s, eglot from %s\n" emacs-version (locate-library "eglot")))

(visit "beck.rig" 11 26)
(same "the kind of file is known" major-mode 'rig-mode)
(coloured 17 "rig" 'font-lock-keyword-face)
(coloured 20 "tippet" 'font-lock-variable-name-face)
(coloured 20 "in " 'font-lock-type-face)
(told 20 "6X")
(completes 23)
(laid-out 23)
(mended 11 26)
(renamed)
(save-some-buffers t)
(let ((server (eglot-current-server)))
  (visit "article.md" 14 33)
  (told 27 "6X")
  (completes 30)
  (laid-out 30)
  (mended 14 33)
  (set-buffer-modified-p nil)
  (switch-to-buffer (find-file-noselect (expand-file-name "days.rig" water-folder)))
  (coloured 5 "outing" 'font-lock-keyword-face)
  (coloured 5 "first" 'font-lock-type-face)
  (coloured 6 "day" 'font-lock-variable-name-face)
  (coloured 6 "2026" 'font-lock-constant-face)
  (coloured 6 "-14" 'font-lock-constant-face)
  (coloured 8 "caught" 'font-lock-variable-name-face)
  (eglot-shutdown-all)
  (wait-for "the server to end" (lambda () (not (jsonrpc-running-p server)))))
(princ "holds: the server ends when it is told to\n")
(kill-emacs 0)

;;; emacs.el ends here
