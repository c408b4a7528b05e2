package loopback

import (
	"encoding/json"
	"net/http"
)

// refusal says no, and why; of a conflict it carries both versions.
type refusal struct {
	status  int
	Message string  `json:"message"`
	Hint    string  `json:"hint"`
	Yours   *string `json:"yours,omitempty"`
	OnDisk  *string `json:"on_disk,omitempty"`
}

func (r *refusal) Error() string { return r.Message }

func (r *refusal) write(w http.ResponseWriter) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(r.status)
	json.NewEncoder(w).Encode(r)
}

func refuse(w http.ResponseWriter, status int, message, hint string) {
	(&refusal{status: status, Message: message, Hint: hint}).write(w)
}
