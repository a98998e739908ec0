package resins

import "potlife/resins/document"

// evidenceField describes the evidence mapping: one entry a block.
func evidenceField(blocks []string, into map[string]Evidence) document.Field {
	fields := make([]document.Field, 0, len(blocks))
	for _, block := range blocks {
		fields = append(fields, document.Custom(block, "a mapping of kind and note", func(n document.Node) {
			var kind, note string
			n.Read(document.Mapping(block, []document.Field{
				document.Choice("kind", &kind, Kinds, document.Required()),
				document.Text("note", &note, document.Required(), document.Example(`"what it rests on"`)),
			}))
			into[block] = Evidence{Kind: Kind(kind), Note: note}
		}, document.Example(`{kind: typical, note: "what it rests on"}`)))
	}
	return document.Mapping("evidence", fields, document.Required())
}
