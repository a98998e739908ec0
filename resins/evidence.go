package resins

import "potlife/resins/document"

// evidenceField describes the evidence mapping: one entry a block.
func evidenceField(blocks []string, into map[string]Evidence, options ...document.Option) document.Field {
	fields := make([]document.Field, 0, len(blocks))
	for _, block := range blocks {
		fields = append(fields, document.Custom(block, "a mapping of kind and note", func(n document.Node) {
			var kind, note string
			n.Read(document.Mapping(block, grounds(&kind, &note)))
			into[block] = Evidence{Kind: Kind(kind), Note: note}
		}, document.ReadLike(document.Mapping("", grounds(new(string), new(string)), document.Doc("what "+block+" rests on"))), document.Example(`{kind: typical, note: "what it rests on"}`)))
	}
	return document.Mapping("evidence", fields, append(options, document.Required(), document.Doc("what each block rests on"))...)
}

func grounds(kind, note *string) []document.Field {
	return []document.Field{
		document.Choice("kind", kind, Kinds, document.Required(), document.Doc("how good it is")),
		document.Text("note", note, document.Required(), document.Doc("source, or how it was come by"), document.Example(`"what it rests on"`)),
	}
}
