package board

import (
	"bytes"
	"crypto/rand"
	"embed"
	"encoding/hex"
	"fmt"
	"html/template"
	"net/http"
	"path"
	"strings"
	"time"

	"potlife/cmd/potlife/internal/report"
	"potlife/resins"
	"potlife/resins/document/visible"
	"potlife/schedule/session"
)

//go:embed assets
var assets embed.FS

// assetNames are the files that are served as they are.
var assetNames = []string{"board.css", "board.js", "icon.svg"}

var assetTypes = map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml"}

func serveAsset(name string) http.HandlerFunc {
	text, err := assets.ReadFile("assets/" + name)
	if err != nil {
		panic(err) // it is built in
	}
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", assetTypes[path.Ext(name)])
		_, _ = w.Write(text) // a client that is gone
	}
}

// pages are the templates.
type pages struct{ *template.Template }

func newPages() *pages {
	words := template.FuncMap{"keySign": keySign, "keyWords": keyWords}
	return &pages{template.Must(template.New("").Funcs(words).ParseFS(assets, "assets/*.html"))}
}

// draw makes HTML of a template. The templates are built in and their data are ours.
func (p *pages) draw(name string, data any) (string, error) {
	var out bytes.Buffer
	err := p.ExecuteTemplate(&out, name, data)
	return visible.Lines(out.String()), err
}

// A page is all of it.
type page struct {
	Job     string
	Content content
	Show    template.HTML
	Facts   template.HTML
	Log     template.HTML
	Away    template.HTML
	Key     string
	Said    *outcome // of the tap before
	Reasons []string
	Curve   bool
	Places  []button // in the order of the page
	Keys    []keypad
	Next    button // the one that is due, once more
	Undo    button
	Pause   button
	Ago     bool // the next tap happened a while ago
}

// places are the buttons of the grid in their order, which never changes: fingers learn it.
var places = []string{"begin", "done", "mixed", "poured", "resume", "changed"}

// page draws the page, or steps a figure where there is no JavaScript for it.
func (b *Board) page(w http.ResponseWriter, r *http.Request) {
	query := r.URL.Query()
	s, err := b.look()
	if err != nil {
		b.broken(err)
		s = b.state.Load()
	}
	if nudge := query.Get("nudge"); nudge != "" {
		w.Header().Set("Location", "./?"+nudged(query, nudge, b.starts(s)).Encode()+"#"+keypadOf(nudge))
		w.WriteHeader(http.StatusSeeOther)
		return
	}
	now := b.cfg.Now()
	c := b.content(s, now)
	p := page{
		Job: job(s.events), Content: c, Show: template.HTML(c.Show), Facts: template.HTML(c.Facts), Log: template.HTML(c.Log), Away: template.HTML(c.Away),
		Key: newKey(), Reasons: reasons, Curve: b.cfg.Curve != nil, Keys: c.keypads(query), Ago: query.Has("ago"),
		Next: c.filled(query, "next"), Undo: c.Buttons["undo"], Pause: c.Buttons["pause"],
	}
	for _, name := range places {
		p.Places = append(p.Places, c.filled(query, name))
	}
	if key := query.Get("tap"); key != "" {
		o := b.outcomeOf(key)
		p.Said = &o
	}
	text, err := b.pages.draw("page.html", p)
	if err != nil {
		http.Error(w, "the page cannot be drawn: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write([]byte(text)) // a client that is gone
}

func job(all []session.Event) string {
	if len(all) > 0 {
		return all[0].Job
	}
	return ""
}

// newKey is 128 random bits.
func newKey() string {
	var bits [16]byte
	_, _ = rand.Read(bits[:]) // never fails
	return hex.EncodeToString(bits[:])
}

// content is what pages and streams have in common.
func (b *Board) content(s *state, now time.Time) content {
	s = s.current(now, b.cfg.Folder)
	v := b.view(s, now)
	c := content{Seq: s.seq, Clock: b.clock(now), Alarm: v.Alarm, Buttons: s.buttons(now)}
	var err error
	if c.Show, err = b.pages.draw("show.html", v); err == nil {
		c.Facts, err = b.pages.draw("facts.html", v)
	}
	if err == nil {
		c.Log, err = b.pages.draw("log.html", b.recent(s))
	}
	if err == nil {
		c.Away, err = b.pages.draw("away.html", s.away())
	}
	if err == nil {
		c.Hazards, err = b.dangers(s)
	}
	if err != nil {
		c.Show = template.HTMLEscapeString("this cannot be drawn: " + err.Error())
	}
	c.Title, c.Last = v.title(), "Nothing is logged yet."
	if e, found := s.last(); found {
		c.Last = fmt.Sprintf("Logged: %s · %s", report.Happened(e), b.clock(e.At))
	}
	c.Keys, c.cup = b.starts(s), resins.FlowCups()[0]
	for _, e := range session.Active(s.events) {
		if e.Kind == session.FlowCup {
			c.cup = e.Cup
		}
	}
	_, c.Curve = b.slow.latest()
	return c
}

func (v *view) title() string {
	text := v.Verb
	switch {
	case v.Fault != "" && v.Danger:
		return "DANGER · NO ANSWER"
	case v.Fault != "":
		return "NO ANSWER"
	case len(v.Figure) > 0:
		text = ""
		for _, p := range v.Figure {
			text += p.Number + " " + p.Unit + " "
		}
		text += "· " + v.Verb
	}
	if v.Danger {
		return "DANGER · " + v.Verb
	}
	if v.AlarmText != "" {
		text = strings.ToUpper(v.AlarmText) + " · " + text
	}
	return text
}

// An entry of the log.
type entry struct {
	At, Text string
	Undone   bool
}

const mostRecent = 6

// recent are the latest events, the last first.
func (b *Board) recent(s *state) []entry {
	stands := map[int]bool{}
	for _, e := range session.Active(s.events) {
		stands[e.Seq] = true
	}
	var list []entry
	for i := len(s.events) - 1; i >= 0 && len(list) < mostRecent; i-- {
		e := s.events[i]
		if e.Kind == session.Undo {
			continue // told with what it takes back
		}
		list = append(list, entry{At: b.clock(e.At), Text: report.Happened(e), Undone: !stands[e.Seq]})
	}
	return list
}

// curve is the picture of the day's bath.
func (b *Board) curve(w http.ResponseWriter, _ *http.Request) {
	picture, _ := b.slow.latest()
	if picture == nil {
		http.Error(w, "there is no curve yet", http.StatusNotFound)
		return
	}
	// A drawing styles itself; it loads and runs nothing.
	w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'")
	w.Header().Set("Content-Type", "image/svg+xml")
	_, _ = w.Write(picture) // a client that is gone
}
