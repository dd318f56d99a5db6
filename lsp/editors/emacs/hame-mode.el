;;; hame-mode.el --- Wiring harnesses in the hame language  -*- lexical-binding: t; -*-

;; Set-up for Emacs 29 and later, which has eglot built in. Put this file on the
;; load-path and add (require 'hame-mode) to the init file; `hame' must be on the
;; PATH. M-x eglot in a harness starts the server; to have it start by itself:
;; (add-hook 'hame-mode-hook #'eglot-ensure)

;;; Code:

(defvar eglot-server-programs)

(defvar hame-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?_ "w" table)
    (modify-syntax-entry ?{ "(}" table)
    (modify-syntax-entry ?} "){" table)
    table)
  "Syntax of harness files.")

(defvar hame-mode-font-lock
  `((,(concat "^\\s-*\\(" (regexp-opt '("supply" "protection" "switch" "load" "join" "ground"))
              "\\)\\s-+\\([[:word:]-]+\\)\\(?:\\s-+\\([[:word:]-]+\\)\\)?")
     (1 font-lock-keyword-face) (2 font-lock-type-face) (3 font-lock-function-name-face nil t))
    (,(concat "^\\s-*\\(" (regexp-opt '("harness" "zone" "bundle" "wire" "mode" "part"))
              "\\)\\s-+\\([[:word:]-]+\\)")
     (1 font-lock-keyword-face) (2 font-lock-function-name-face))
    (,(concat "^\\s-*" (regexp-opt '("place" "use" "require" "allow") 'words)) . font-lock-keyword-face)
    ("\\(?:[{;]\\|^\\)\\s-*\\([[:word:]]+\\)\\_>" 1 font-lock-variable-name-face))
  "Colours of harness files; the server knows more.")

;;;###autoload
(define-derived-mode hame-mode prog-mode "Hame"
  "Major mode for wiring harnesses in the hame language."
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+\\s-*")
  (setq-local indent-tabs-mode nil)
  (setq-local tab-width 4)
  (setq-local font-lock-defaults '(hame-mode-font-lock)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.hame\\'" . hame-mode))

(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(hame-mode . ("hame" "lsp"))))

(provide 'hame-mode)
;;; hame-mode.el ends here
