// Package liberationsansitalic stands for a style that potlife does not use.
package liberationsansitalic

import "codeberg.org/go-fonts/liberation/liberationsansregular"

// TTF is the font that is used in its place.
var TTF = liberationsansregular.TTF
