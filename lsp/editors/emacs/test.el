;;; test.el --- Tries hame-mode without a screen  -*- lexical-binding: t; -*-

;; emacs --batch --load test.el, with HAME_TEST_FILE a faulty harness and `hame'
;; on the PATH. Started by test.sh.

;;; Code:

(defconst test-folder (file-name-directory load-file-name))
(defconst test-file (getenv "HAME_TEST_FILE"))

(defun test-say (ok what)
  "Report WHAT, and end unless OK."
  (message "%s  %s" (if ok "ok" "NO") what)
  (unless ok (kill-emacs 1)))

(defun test-eventually (what ready)
  "Wait for READY to be true, then report WHAT."
  (let ((rounds 400))
    (while (and (> rounds 0) (not (funcall ready)))
      (setq rounds (1- rounds))
      (accept-process-output nil 0.05))
    (test-say (> rounds 0) what)))

(defun test-face (word)
  "The face of the first WORD in the buffer."
  (save-excursion
    (goto-char (point-min))
    (search-forward word)
    (get-text-property (match-beginning 0) 'face)))

(setq byte-compile-error-on-warn t
      byte-compile-dest-file-function (lambda (_) (concat test-file ".elc")))
(test-say (byte-compile-file (concat test-folder "hame-mode.el")) "the mode is compiled without a warning")
(load (concat test-folder "hame-mode.el") nil t)

(find-file test-file)
(test-say (eq major-mode 'hame-mode) "a harness is opened in its mode")
(font-lock-ensure)
(test-say (eq (test-face "# A feed mixer") 'font-lock-comment-delimiter-face) "a comment has its face")
(test-say (eq (test-face "protection") 'font-lock-keyword-face) "so has a keyword")
(test-say (eq (test-face "fuse feed") 'font-lock-type-face) "and a kind")
(test-say (eq (test-face "rating") 'font-lock-variable-name-face) "and a setting")
(goto-char (point-min))
(search-forward "wire w4")
(comment-line 1)
(forward-line -1)
(test-say (looking-at "# wire w4") "a line is made a comment")
(comment-line 1)
(set-buffer-modified-p nil)

(defun test-finding (rule)
  "A finding of RULE among those that are shown."
  (seq-find (lambda (d) (string-match-p rule (flymake-diagnostic-text d))) (flymake-diagnostics)))

(if (not (require 'eglot nil t))
    (message "--  this Emacs has no eglot: the server is not tried")
  (setq eglot-sync-connect 20)
  (apply #'eglot (eglot--guess-contact))
  (test-say (eglot-current-server) "the server is there")
  (test-eventually "what is wrong with the example is shown" (lambda () (flymake-start) (test-finding "w9")))
  (goto-char (point-min))
  (search-forward "led lamp ")
  (backward-char 3)
  (eglot-rename "work_lamp")
  (test-say (save-excursion (search-forward "work_lamp.neg" nil t)) "a name is changed wherever it stands")
  (search-forward "wire w10")
  (replace-match "wire   w10")
  (eglot-format-buffer)
  (test-say (save-excursion (goto-char (point-min)) (search-forward "\nwire w10 " nil t)) "the text is formatted")
  (set-buffer-modified-p nil)
  (eglot-shutdown (eglot-current-server) nil 10)
  (test-say t "the server ends"))
;;; test.el ends here
