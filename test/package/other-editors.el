;; What the test of other-editors.test.ts does in Emacs, with the commands that its user has. The answer is JSON.
(defun told (ask)
  "What ASK gives, as soon as it gives something; nothing after a minute."
  (let ((until (+ (float-time) 60)) answer)
    (while (and (not (setq answer (funcall ask))) (< (float-time) until))
      (accept-process-output nil 0.05))
    answer))

(find-file "tab.planish")
;; In a batch nobody types, and this is what eglot-ensure waits for.
(run-hooks 'post-command-hook)
(told #'eglot-current-server)
(flymake-start)
(let* ((marks (mapcar #'flymake-diagnostic-text (told #'flymake-diagnostics)))
       (hover (let (text)
                (search-forward "16")
                (run-hook-with-args 'eldoc-documentation-functions (lambda (said &rest _) (setq text (or said text))))
                (told (lambda () text))))
       (completed (progn (search-forward "from plat") (completion-at-point) (buffer-string)))
       (formatted (progn (eglot-format-buffer) (buffer-string))))
  (princ (json-encode `((marks . ,(vconcat marks)) (hover . ,hover) (completed . ,completed) (formatted . ,formatted)))))
