package document

// Mapping is a nested table of fields.
func Mapping(name string, fields []Field, options ...Option) Field {
	f := build(Field{Name: name, Kind: KindMapping, Measures: "a mapping", Fields: fields}, options)
	f.read = func(n Node) { n.readFields(fields) }
	return f
}

// List is a list of items of one kind. The item function binds one item to a field,
// whose name does not matter; it is called for each item of the document, and once with
// a value of no consequence to describe the list. The items replace what into held.
func List[T any](name string, into *[]T, item func(*T) Field, options ...Option) Field {
	f := build(Field{
		Name: name, Kind: KindList, Measures: "a list",
		Item: func() Field { return item(new(T)) },
	}, options)
	f.read = func(n Node) {
		if !n.IsList() {
			n.wrongShape()
			return
		}
		nodes := n.Items()
		items := make([]T, len(nodes))
		for i, node := range nodes {
			node.Read(item(&items[i]))
		}
		*into = items
	}
	return f
}

// Union is a value of several forms, told apart by their shape: at most one of the forms
// is a mapping, one a list, and one a scalar (of any of the other kinds).
func Union(name string, forms []Field, options ...Option) Field {
	measures := ""
	for i, form := range forms {
		if i > 0 {
			measures += " or "
		}
		measures += form.Measures
	}
	f := build(Field{Name: name, Kind: KindUnion, Measures: measures, Forms: forms}, options)
	f.read = func(n Node) {
		for _, form := range forms {
			if form.shape() == n.shape() {
				form.read(n)
				form.markSeen()
				return
			}
		}
		n.wrongShape()
	}
	return f
}

// Custom leaves the reading to the caller. Measures says with its article what is
// wanted: "a limit".
func Custom(name, measures string, read func(Node), options ...Option) Field {
	f := build(Field{Name: name, Kind: KindCustom, Measures: measures}, options)
	f.read = read
	return f
}

func (f Field) shape() shape {
	switch f.Kind {
	case KindMapping:
		return mappingShape
	case KindList:
		return listShape
	}
	return scalarShape
}

func (f Field) markSeen() {
	if f.seen != nil {
		*f.seen = true
	}
}
