;; Opens a spec as a user of the README's lines would, and prints what Flymake shows: no command loop
;; runs in batch mode, so what waits for one is called here.
(setq inhibit-message t eglot-sync-connect 20 eglot-connect-timeout 20)
(require 'eglot)
(load (getenv "POISE_LINES") nil t)
(find-file (getenv "POISE_FILE"))
(run-hooks 'post-command-hook)

(defun poise-wait (done)
  "Lets the server and the timers run until DONE says so, for 20 seconds at most."
  (let ((end (+ (float-time) 20)))
    (while (and (not (funcall done)) (< (float-time) end))
      (accept-process-output nil 0.05)
      (flymake-start))))

(defun poise-findings ()
  (mapcar (lambda (it)
            `((line . ,(line-number-at-pos (flymake-diagnostic-beg it)))
              (type . ,(format "%s" (flymake-diagnostic-type it)))
              (text . ,(flymake-diagnostic-text it))))
          (flymake-diagnostics)))

(require 'json)
(poise-wait (lambda () (flymake-diagnostics)))
(let ((findings (poise-findings)))
  (search-forward "42.5")
  (replace-match "39.5")
  (eglot--signal-textDocument/didChange)
  (poise-wait (lambda () (null (flymake-diagnostics))))
  (princ (json-encode `((findings . ,(vconcat findings))
                        (cleared . ,(if (flymake-diagnostics) json-false t))))))
(terpri)
(eglot-shutdown (eglot-current-server))
