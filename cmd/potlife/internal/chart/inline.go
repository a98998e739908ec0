package chart

import (
	"bytes"
	"fmt"
	"html"
)

// Inline draws the course as an element for the inside of an HTML page, as wide as what it
// stands in. It names nothing outside the page; alt says what it shows to whoever cannot
// see it.
func Inline(c Course, alt string) ([]byte, error) {
	picture, err := render("svg", c)
	if err != nil {
		return nil, err
	}
	begin := bytes.Index(picture, []byte("<svg"))
	if begin < 0 {
		return nil, fmt.Errorf("chart: the picture has no element svg")
	}
	length := bytes.IndexByte(picture[begin:], '>')
	width, height := c.size()
	head := fmt.Sprintf(`<svg viewBox="0 0 %.2f %.2f" role="img" aria-label="%s">`, width.Points(), height.Points(), html.EscapeString(printable(alt)))
	return append([]byte(head), picture[begin+length+1:]...), nil
}
