package schema

import (
	"slices"

	"potlife/resins/document"
)

// ruled is a rule as conditions on a mapping.
func ruled(rule document.Rule) []object {
	var conditions []object
	if len(rule.OneOf) > 0 {
		conditions = append(conditions, object{}.with("oneOf", sets(rule.OneOf)))
	}
	if len(rule.AnyOf) > 0 {
		var each []object
		for _, key := range rule.AnyOf {
			each = append(each, object{}.with("required", []string{key}))
		}
		conditions = append(conditions, object{}.with("anyOf", each))
	}
	if len(rule.All) > 0 {
		conditions = append(conditions, object{}.with("required", rule.All))
	}
	for _, choice := range sortedKeys(rule.Takes) {
		chosen := object{}.with(rule.By, object{}.with("const", choice))
		conditions = append(conditions, object{}.
			with("if", object{}.with("properties", chosen).with("required", []string{rule.By})).
			with("then", only(rule.Takes[choice], keysOf(rule.Takes))))
	}
	return conditions
}

// sets are mappings that have one of the sets of keys and none of the others'.
func sets(groups [][]string) []object {
	var all []string
	for _, group := range groups {
		all = append(all, group...)
	}
	list := make([]object, len(groups))
	for i, group := range groups {
		list[i] = only(group, all)
	}
	return list
}

// only is a mapping that has the keys wanted, and no other of those known.
func only(wanted, known []string) object {
	refused := object{}
	seen := map[string]bool{}
	for _, key := range known {
		if !slices.Contains(wanted, key) && !seen[key] {
			seen[key] = true
			refused = refused.with(key, false)
		}
	}
	return object{}.with("required", wanted).when(len(refused) > 0, "properties", refused)
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
