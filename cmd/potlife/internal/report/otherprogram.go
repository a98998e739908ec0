package report

import (
	"potlife/kinetics/warning"
	"potlife/schedule/session"
)

func sayOtherProgram(w warning.Warning) (string, bool) {
	other, known := w.(session.OtherProgram)
	return other.Folder + ": begun with " + programWords(other.Begun) + ", this is " + programWords(other.This) + ": figures may differ", known
}

func programWords(version string) string {
	if version == "" {
		return "a potlife without a version"
	}
	return "potlife " + version
}
