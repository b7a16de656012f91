package page

// field is one box of a form with what was typed into it.
type field struct {
	Name, Label, Value string
	Type               string // of the input; "" = text
	Keys               string // the phone's keyboard: "decimal", "numeric"
	Hint               string // what is accepted
	Wrong              string // what is wrong with what was typed
	Needed             bool
	Options            []option // of a choice
}

type option struct{ Value, Text string }

// mending is one thing to put right before a form can be taken, with the
// field it stands in when that is known.
type mending struct{ Field, Says, Hint string }
