package report

// Board is the JSON of board: where it is served.
type Board struct {
	Session   string   `json:"session"`
	Addresses []string `json:"addresses"` // the first is the one of the code
	Encrypted bool     `json:"encrypted"` // never: whoever is on the network can read along
}
