package sheet

import (
	"crypto/sha256"
	"encoding/base64"
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "potlife/kinetics/testrun" // fixes rapid's seed
)

// filled is a page with the same text in every field.
func filled(text string) *Page {
	return &Page{
		Title: text, Day: text, Resin: text, Mix: text, Verdict: text,
		Rows: []Row{
			{
				Day:   text,
				Pot:   &Pot{Number: text, Into: text, Where: text, Resin: text, Hardener: text, Mass: text, Mix: text, MixBy: text, Pour: text, PourBy: text},
				Layer: &Layer{Name: text, Detail: text, Begin: text, Done: text},
			},
			{Layer: &Layer{Name: text}},
			{Pot: &Pot{Into: text}},
		},
		Limits: []string{text}, Doubts: []string{text}, Care: []string{text, text},
	}
}

func encoded(t interface {
	Helper()
	Fatal(...any)
}, p *Page,
) string {
	t.Helper()
	out, err := p.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

var tag = regexp.MustCompile(`<[^>]*>`)

// TestTextStaysText: whatever is in the fields, the page has the same tags.
func TestTextStaysText(t *testing.T) {
	want := tag.FindAllString(encoded(t, filled("plain")), -1)
	if len(want) < 100 {
		t.Fatalf("only %d tags seen", len(want))
	}
	hostile := []string{
		`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `</title><b>`, `</style><style>*{display:none}</style>`,
		`{{.Title}}`, "a, b; c\nd\r\n", `<!--`, `javascript:alert(1)`, `' onload='x`, "&lt;", "\x00<b\x00>",
	}
	for _, text := range hostile {
		if got := tag.FindAllString(encoded(t, filled(text)), -1); !slices.Equal(got, want) {
			t.Errorf("%q changes the tags", text)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[<>"'&/= a-z!\-]{1,40}`)).Filter(func(s string) bool { return s != "" }).Draw(t, "text")
		if got := tag.FindAllString(encoded(t, filled(text)), -1); !slices.Equal(got, want) {
			t.Fatalf("%q changes the tags", text)
		}
	})
}

// TestNothingFromElsewhere: no address, no script, no way to load or send anything, and a
// policy that lets the browser apply the one style by its hash (W3C, Content Security Policy
// Level 3, 2.3.1, hash-source) and nothing else.
func TestNothingFromElsewhere(t *testing.T) {
	page := encoded(t, filled("plain"))
	for _, banned := range []string{"//", "url(", "@import", "<script", "src=", "href=", "javascript:", "<form", "<link", "style=", "onload", "http:"} {
		if strings.Contains(strings.ToLower(page), banned) {
			t.Errorf("the page holds %q", banned)
		}
	}
	style := regexp.MustCompile(`(?s)<style>(.*?)</style>`).FindStringSubmatch(page)
	if style == nil {
		t.Fatal("no style")
	}
	sum := sha256.Sum256([]byte(style[1]))
	policy := `content="default-src 'none'; style-src 'sha256-` + base64.StdEncoding.EncodeToString(sum[:]) + `'; base-uri 'none'; form-action 'none'"`
	if !strings.Contains(html.UnescapeString(page), policy) {
		t.Errorf("the policy is not %s", policy)
	}
}

// TestEmptyLanes: where one lane has nothing the other one keeps its place.
func TestEmptyLanes(t *testing.T) {
	page := encoded(t, filled("plain"))
	rows := regexp.MustCompile(`(?s)<tr[ >].*?</tr>`).FindAllString(page[strings.Index(page, "<tbody>"):], -1)
	for i, row := range rows {
		columns := strings.Count(row, "<td") + 4*strings.Count(row, `colspan="5"`) + 2*strings.Count(row, `colspan="3"`) + 7*strings.Count(row, `colspan="8"`)
		if columns != 8 {
			t.Errorf("row %d has %d columns", i, columns)
		}
	}
	if len(rows) != 4 { // one of them the day's
		t.Errorf("%d rows", len(rows))
	}
}
