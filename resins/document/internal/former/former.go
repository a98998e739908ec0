// Package former lets tests rename keys of real files, so that commands are seen to pass such a
// key on before any key was renamed. No product code adds a name: those stand in the tables.
package former

// Names are further names of before, by the name of today.
var Names = map[string]string{}
