// Package liberationserifbolditalic stands for a style that potlife does not use.
package liberationserifbolditalic

import "codeberg.org/go-fonts/liberation/liberationsansregular"

// TTF is the font that is used in its place.
var TTF = liberationsansregular.TTF
