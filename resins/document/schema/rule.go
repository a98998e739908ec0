package schema

import (
	"slices"

	"potlife/resins/document"
)

// names are those that keys had before, of keys that had any.
type names map[string][]string

// of are all names of a key.
func (n names) of(key string) []string { return append([]string{key}, n[key]...) }

// required is a mapping that has all the keys, under whatever name.
func (n names) required(keys []string) object {
	plain := []string{}
	var renamed []object
	for _, key := range keys {
		if len(n[key]) == 0 {
			plain = append(plain, key)
			continue
		}
		renamed = append(renamed, object{}.with("anyOf", each(n.of(key))))
	}
	return object{}.with("required", plain).when(len(renamed) > 0, "allOf", renamed)
}

// each are mappings that have one of the keys each.
func each(keys []string) []object {
	list := make([]object, len(keys))
	for i, key := range keys {
		list[i] = object{}.with("required", []string{key})
	}
	return list
}

// atMostOne is a mapping that has no two of the keys.
func atMostOne(keys []string) object {
	var pairs []object
	for i, key := range keys {
		for _, other := range keys[:i] {
			pairs = append(pairs, object{}.with("required", []string{other, key}))
		}
	}
	return object{}.with("not", object{}.with("anyOf", pairs))
}

// ruled is a rule as conditions on a mapping.
func (n names) ruled(rule document.Rule) []object {
	var conditions []object
	if len(rule.OneOf) > 0 {
		conditions = append(conditions, object{}.with("oneOf", n.sets(rule.OneOf)))
	}
	if len(rule.AnyOf) > 0 {
		var all []string
		for _, key := range rule.AnyOf {
			all = append(all, n.of(key)...)
		}
		conditions = append(conditions, object{}.with("anyOf", each(all)))
	}
	if len(rule.NotBoth) > 0 {
		conditions = append(conditions, atMostOne(rule.NotBoth))
	}
	if len(rule.All) > 0 {
		conditions = append(conditions, n.required(rule.All))
	}
	for _, choice := range sortedKeys(rule.Takes) {
		for _, by := range n.of(rule.By) {
			chosen := object{}.with(by, object{}.with("const", choice))
			conditions = append(conditions, object{}.
				with("if", object{}.with("properties", chosen).with("required", []string{by})).
				with("then", n.only(rule.Takes[choice], keysOf(rule.Takes))))
		}
	}
	return conditions
}

// sets are mappings that have one of the sets of keys and none of the others'.
func (n names) sets(groups [][]string) []object {
	var all []string
	for _, group := range groups {
		all = append(all, group...)
	}
	list := make([]object, len(groups))
	for i, group := range groups {
		list[i] = n.only(group, all)
	}
	return list
}

// only is a mapping that has the keys wanted, and no other of those known.
func (n names) only(wanted, known []string) object {
	refused := object{}
	seen := map[string]bool{}
	for _, key := range known {
		if !slices.Contains(wanted, key) && !seen[key] {
			seen[key] = true
			for _, name := range n.of(key) {
				refused = refused.with(name, false)
			}
		}
	}
	return n.required(wanted).when(len(refused) > 0, "properties", refused)
}

func keysOf(takes map[string][]string) []string {
	var all []string
	for _, choice := range sortedKeys(takes) {
		all = append(all, takes[choice]...)
	}
	return all
}

func sortedKeys(takes map[string][]string) []string {
	var keys []string
	for key := range takes {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}
