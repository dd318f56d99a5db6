#!/usr/bin/env bash
# Compiles the mode and looks at the colours of a harness in a real Emacs.
#
#     lsp/editors/emacs/test.sh
set -euo pipefail
here="$(cd "$(dirname "$0")" && pwd)"
dir="$(mktemp -d)"
trap 'rm -rf "$dir"' EXIT
cp "$here/hame-mode.el" "$dir/"
printf '# note\nload led lamp { at box; draws 3 W }\nwire w1 a.out -> lamp.pos 1 mm2\n' >"$dir/t.hame"
timeout 60 emacs --batch -Q -L "$dir" --eval '(setq byte-compile-error-on-warn t)' \
    -f batch-byte-compile "$dir/hame-mode.el"
timeout 60 emacs --batch -Q -L "$dir" -l hame-mode --eval "
(progn
  (find-file \"$dir/t.hame\")
  (unless (eq major-mode 'hame-mode) (error \"the mode is %s\" major-mode))
  (font-lock-ensure)
  (dolist (want '((\"# note\" . font-lock-comment-face) (\"load\" . font-lock-keyword-face)
                  (\"led\" . font-lock-type-face) (\"lamp {\" . font-lock-function-name-face)
                  (\"draws\" . font-lock-variable-name-face) (\"wire\" . font-lock-keyword-face)))
    (goto-char (point-min))
    (search-forward (car want))
    (let ((face (get-text-property (+ (match-beginning 0) (if (string-prefix-p \"#\" (car want)) 2 0)) 'face)))
      (unless (eq face (cdr want)) (error \"%s is %s\" (car want) face)))))"
echo "ok  Emacs knows harnesses"
