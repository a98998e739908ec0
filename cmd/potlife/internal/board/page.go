package board

import (
	"bytes"
	"crypto/rand"
	"embed"
	"encoding/hex"
	"fmt"
	"html/template"
	"math"
	"net/http"
	"net/url"
	"path"
	"strconv"
	"strings"
	"time"

	"potlife/cmd/potlife/internal/report"
	"potlife/resins"
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
	words := template.FuncMap{"stepSign": stepSign, "stepWords": stepWords}
	return &pages{template.Must(template.New("").Funcs(words).ParseFS(assets, "assets/*.html"))}
}

// draw makes HTML of a template. The templates are built in and their data are ours.
func (p *pages) draw(name string, data any) (string, error) {
	var out bytes.Buffer
	err := p.ExecuteTemplate(&out, name, data)
	return out.String(), err
}

// stepSign is what stands on the button of a step such as grams:-10.
func stepSign(step string) string {
	_, by, _ := strings.Cut(step, ":")
	if rest, minus := strings.CutPrefix(by, "-"); minus {
		return "−" + rest
	}
	return "+" + by
}

// stepUnits are what steps are of.
var stepUnits = map[string]string{"grams": "grams", "temp": "degrees", "seconds": "seconds"}

// stepWords are its name for those who do not see it.
func stepWords(step string) string {
	field, by, _ := strings.Cut(step, ":")
	if rest, minus := strings.CutPrefix(by, "-"); minus {
		return rest + " " + stepUnits[field] + " less"
	}
	return by + " " + stepUnits[field] + " more"
}

// fields are what the steppers hold.
type fields struct {
	Grams, Temp, Cup, Seconds string
	Cups                      []string
}

// A page is all of it.
type page struct {
	Job     string
	Content content
	Fields  fields
	Show    template.HTML
	Facts   template.HTML
	Log     template.HTML
	Key     string
	Said    *outcome // of the tap before
	Reasons []string
	Curve   bool
	Places  []button // in the order of the page
	Undo    button
	Temp    button
	Flow    button
	Pause   button
}

// places are the buttons of the grid in their order, which never changes: fingers learn it.
var places = []string{"begin", "done", "mixed", "poured", "resume", "changed"}

// page draws the page, or steps a figure where there is no JavaScript for it.
func (b *Board) page(w http.ResponseWriter, r *http.Request) {
	query := r.URL.Query()
	if nudge := query.Get("nudge"); nudge != "" {
		w.Header().Set("Location", "./?"+nudged(query, nudge).Encode()+anchor(nudge))
		w.WriteHeader(http.StatusSeeOther)
		return
	}
	s, err := b.look()
	if err != nil {
		b.broken(err)
		s = b.state.Load()
	}
	now := b.cfg.Now()
	c := b.content(s, now)
	p := page{
		Job: job(s.events), Content: c, Fields: b.fields(s, c, query), Show: template.HTML(c.Show), Facts: template.HTML(c.Facts), Log: template.HTML(c.Log),
		Key: newKey(), Reasons: reasons, Curve: b.cfg.Curve != nil,
		Undo: c.Buttons["undo"], Temp: c.Buttons["bath-temp"], Flow: c.Buttons["flow-cup"], Pause: c.Buttons["pause"],
	}
	for _, name := range places {
		button := c.Buttons[name]
		if name == "mixed" && button.On {
			button.Note += ", " + p.Fields.Grams + " g"
		}
		p.Places = append(p.Places, button)
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
	v := b.view(s, now)
	c := content{Seq: s.seq, Clock: b.clock(now), Alarm: v.Alarm, Buttons: s.buttons(now)}
	var err error
	if c.Show, err = b.pages.draw("show.html", v); err == nil {
		c.Facts, err = b.pages.draw("facts.html", v)
	}
	if err == nil {
		c.Log, err = b.pages.draw("log.html", b.recent(s))
	}
	if err != nil {
		c.Show = template.HTMLEscapeString("this cannot be drawn: " + err.Error())
	}
	c.Title = v.title()
	if e, found := s.last(); found {
		c.Last = fmt.Sprintf("Logged: %s · %s", report.Happened(e), b.clock(e.At))
	}
	c.Grams, c.Temp = b.grams(s), b.temperature(s)
	_, c.Curve = b.slow.latest()
	return c
}

func (v *view) title() string {
	text := v.Verb
	if len(v.Figure) > 0 {
		text = ""
		for _, p := range v.Figure {
			text += p.Number + " " + p.Unit + " "
		}
		text += "· " + v.Verb
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

// grams are those of the pot that is to be mixed next: by the advice, or the largest of the
// job.
func (b *Board) grams(s *state) string {
	grams := b.setting.Largest.In("g")
	if s.answer != nil && s.answer.NextPotG() > 0 {
		grams = s.answer.NextPotG()
	}
	return strconv.FormatFloat(grams, 'f', 1, 64)
}

// temperature is the likely one of the bath, to half a degree.
func (b *Board) temperature(s *state) string {
	celsius := 20.0
	if s.answer != nil && s.answer.Bath != nil {
		celsius = math.Min(99, s.answer.Bath.TemperatureC)
	}
	return strconv.FormatFloat(math.Round(2*celsius)/2, 'f', 1, 64)
}

// fields are what was entered, or what to begin with.
func (b *Board) fields(s *state, c content, query url.Values) fields {
	f := fields{Grams: c.Grams, Temp: c.Temp, Cup: resins.FlowCups()[0], Seconds: "60", Cups: resins.FlowCups()}
	for _, e := range s.events {
		if e.Kind == session.FlowCup {
			f.Cup, f.Seconds = e.Cup, report.Tenth(e.Seconds)
		}
	}
	for name, into := range map[string]*string{"grams": &f.Grams, "temp": &f.Temp, "seconds": &f.Seconds} {
		if x, err := figureIn(query, name); err == nil {
			*into = strconv.FormatFloat(x, 'f', decimals[name], 64)
		}
	}
	if cup := query.Get("cup"); knownCup(cup) {
		f.Cup = cup
	}
	return f
}

func knownCup(name string) bool {
	_, err := resins.FlowCupNamed(name)
	return err == nil
}

var decimals = map[string]int{"grams": 1, "temp": 1, "seconds": 0}

// figureIn reads a figure of a query; it must be one that a stepper can show.
func figureIn(query url.Values, name string) (float64, error) {
	x, err := strconv.ParseFloat(number(query.Get(name)), 64)
	if err == nil && !(math.Abs(x) < 1e6) {
		err = strconv.ErrRange
	}
	return x, err
}

// nudged are the fields after a step such as grams:-10, without anything else.
func nudged(query url.Values, nudge string) url.Values {
	out := url.Values{}
	name, step, _ := strings.Cut(nudge, ":")
	by, err := strconv.ParseFloat(step, 64)
	for field, digits := range decimals {
		x, unread := figureIn(query, field)
		if unread != nil {
			continue
		}
		if field == name && err == nil && math.Abs(by) <= 1000 {
			x = math.Max(0, x+by)
		}
		out.Set(field, strconv.FormatFloat(x, 'f', digits, 64))
	}
	if cup := query.Get("cup"); knownCup(cup) {
		out.Set("cup", cup)
	}
	return out
}

// anchor brings the page back to the stepper that was used.
func anchor(nudge string) string {
	name, _, _ := strings.Cut(nudge, ":")
	if _, known := decimals[name]; known {
		return "#" + name
	}
	return ""
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
