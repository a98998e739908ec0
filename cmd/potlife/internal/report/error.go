package report

// Errors is the JSON of a command that ends without an answer: one line on stderr, the last one.
type Errors struct {
	Exit   int     `json:"exit"` // the exit code of the command
	Errors []Error `json:"errors"`
}

// An Error is one thing that is wrong.
type Error struct {
	Code    string `json:"code"` // of a list that only grows; the README has it
	Message string `json:"message"`
	Place   Place  `json:"place"`
	Fix     string `json:"fix"` // what to do about it
}

// A Place is where an error is.
type Place struct {
	Command string `json:"command"`          // as it was understood: potlife resins check
	Flag    string `json:"flag,omitempty"`   // with its dashes
	File    string `json:"file,omitempty"`   // or the flag that held the text of one
	Line    int    `json:"line,omitempty"`   // from 1
	Column  int    `json:"column,omitempty"` // from 1, in characters
}
