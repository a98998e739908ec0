package schema

import (
	"bytes"
	"encoding/json"
)

// An object is a JSON object whose members keep their order: that of the table is the one
// in which people think of the keys.
type object []member

type member struct {
	name  string
	value any
}

// with adds a member.
func (o object) with(name string, value any) object { return append(o, member{name, value}) }

// when adds a member if there is something to say.
func (o object) when(there bool, name string, value any) object {
	if !there {
		return o
	}
	return o.with(name, value)
}

// MarshalJSON writes the members in their order, with signs such as < as they are.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := encoder.Encode(m.name); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := encoder.Encode(m.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}
