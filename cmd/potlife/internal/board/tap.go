package board

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"time"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins/document/visible"
	"potlife/schedule/session"
)

// settles is how soon the same thing cannot happen again: a finger that bounces, or a page
// that was drawn anew between two taps of one hand.
const settles = 2 * time.Second

// An outcome is what became of a tap.
type outcome struct {
	Logged bool   `json:"logged"`
	Known  bool   `json:"known"` // false: no such tap has come
	Seq    int    `json:"seq"`
	Text   string `json:"text"`
	At     string `json:"at"` // the time of day at which it happened
	status int
}

// keyed is what a key looks like. With the button's name in it, two buttons of one page are
// two taps.
var keyed = regexp.MustCompile(`^[0-9a-f]{32}$`)

// tap logs what a button says has happened.
func (b *Board) tap(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		status := http.StatusBadRequest
		var long *http.MaxBytesError
		if errors.As(err, &long) {
			status = http.StatusRequestEntityTooLarge
		}
		http.Error(w, "this is no form of the page", status)
		return
	}
	page := r.PostForm.Get("key")
	name, _, _ := strings.Cut(r.PostForm.Get("do"), " ")
	if !keyed.MatchString(page) || !buttonNames[name] {
		http.Error(w, "this form does not come from the page: load it anew and tap again", http.StatusBadRequest)
		return
	}
	key := page + "-" + name
	result := b.take(key, name, r.PostForm)
	b.soon()
	if r.Header.Get("Accept") == "application/json" {
		writeOutcome(w, result)
		return
	}
	query := url.Values{"tap": {key}}
	if cup := r.PostForm.Get("cup"); knownCup(cup) {
		query.Set("cup", cup)
	}
	w.Header().Set("Location", "./?"+query.Encode()) // seen from the form's address
	w.WriteHeader(http.StatusSeeOther)
}

// became tells a page that lost its connection what became of its tap.
func (b *Board) became(w http.ResponseWriter, r *http.Request) {
	o := b.outcomeOf(r.URL.Query().Get("key"))
	if o.Logged || !o.Known {
		o.status = http.StatusOK
	}
	writeOutcome(w, o)
}

func writeOutcome(w http.ResponseWriter, o outcome) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(o.status)
	o.Text = visible.Lines(o.Text)
	_ = json.NewEncoder(w).Encode(o) // a client that is gone
}

// take logs a tap once.
func (b *Board) take(key, name string, form url.Values) outcome {
	b.taps.Lock()
	defer b.taps.Unlock()
	_, known := b.entry(key)
	if o, found := b.refused.of(key); found && !known {
		return o
	}
	now := b.cfg.Now()
	e, err := b.log(key, name, form, now)
	var again *session.Refused
	if errors.As(err, &again) {
		return b.refusedBefore(again)
	}
	if err != nil {
		o := outcome{Known: true, Text: inWords(err, b.cfg.Folder), At: b.clock(now), status: http.StatusConflict}
		if !mendable(err) {
			o.status = http.StatusServiceUnavailable
		}
		b.refused.keep(key, o)
		_ = b.session.Refuse(key, o.Text, now) // where the disk fails it is refused by this board
		return o
	}
	b.settled[e.Kind] = e.Logged
	if !known {
		b.slow.asked(e)
	}
	return b.logged(e)
}

func (b *Board) logged(e session.Event) outcome {
	text := "Logged: " + report.Happened(e)
	var warnings []warning.Warning
	all, err := b.session.Events()
	if e.Kind == session.Mixed {
		warnings = b.setting.Warnings(session.WithLastDay(e, all), session.Day{})
	}
	if err == nil {
		warnings = append(warnings, b.setting.Twice(e, all)...)
	}
	for _, sentence := range report.Sentences(warnings) {
		text += ". Look again: " + sentence
	}
	return outcome{Logged: true, Known: true, Seq: e.Seq, Text: text, At: b.clock(e.At), status: http.StatusOK}
}

// A refusal of the board's own.
func refuse(mend, format string, args ...any) error {
	return &session.Refusal{Problem: fmt.Sprintf(format, args...), Mend: mend}
}

// mendable tells errors of what was told from those of the disk.
func mendable(err error) bool {
	var refusal *session.Refusal
	var unread *quantity.Error
	return errors.As(err, &refusal) || errors.As(err, &unread)
}

// log checks what only the board knows, and leaves the rest to the rules.
func (b *Board) log(key, name string, form url.Values, now time.Time) (session.Event, error) {
	if entry, found := b.entry(key); found {
		return entry, nil
	}
	if err := b.state.Load().broken; err != nil {
		return session.Event{}, err
	}
	told, err := told(name, form)
	if err != nil {
		return session.Event{}, err
	}
	told.Now = now
	if form.Get("ago") == ago && name != "undo" {
		told.At = now.Add(-back).Format(time.RFC3339)
	}
	e, err := session.Read(b.setting, told)
	if err == nil && told.At != "" {
		err = b.tenMinutesAgo(now)
	}
	if err != nil {
		return e, err
	}
	if before, found := b.settled[e.Kind]; found {
		if since := now.Sub(before); since >= 0 && since < settles {
			return e, refuse("if it did happen twice, tap again", "%s was logged just now: a second tap so soon is taken for the same", e.Kind)
		}
	}
	check, err := b.behind(e, form, now)
	if err != nil {
		return e, err
	}
	e, err = b.session.LogOnce(key, e, check)
	var failed *session.Failed
	if errors.As(err, &failed) {
		b.reopen()
	}
	return e, err
}

// tenMinutesAgo refuses that where it is not known when now is.
func (b *Board) tenMinutesAgo(now time.Time) error {
	all, err := b.session.Events()
	if clocks, differ := session.Differ(all, now); err == nil && differ {
		return clocks.Refusal()
	}
	return err
}

// behind refuses what a page that is behind the journal may mean otherwise. It is asked under
// the lock: another board may log between a look and the tap.
func (b *Board) behind(e session.Event, form url.Values, now time.Time) (func(all []session.Event) error, error) {
	seen := 0
	if e.Kind == session.Mixed { // nothing else tells two pots from one that was told twice
		var err error
		if seen, err = strconv.Atoi(form.Get("seen")); err != nil {
			return nil, refuse("load the page anew and tap again", "this form does not say what it has seen")
		}
	}
	return func(all []session.Event) error {
		switch e.Kind {
		case session.Mixed:
			return session.Unseen(seen, e, all)
		case session.Undo:
			if e.Of >= 1 && e.Of <= len(all) && now.Sub(all[e.Of-1].Logged) > undoable {
				return refuse(fmt.Sprintf("on the laptop write potlife log undo e%d", e.Of), "e%d is older than a minute", e.Of)
			}
		}
		return nil
	}, nil
}

// entry finds the event that was logged with a key.
func (b *Board) entry(key string) (session.Event, bool) {
	for _, entry := range b.session.Journal.Entries() {
		if entry.Key != key {
			continue
		}
		all, err := b.session.Events()
		if err != nil || entry.Seq > len(all) {
			return session.Event{}, false
		}
		return all[entry.Seq-1], true
	}
	return session.Event{}, false
}

// reopen opens the journal again after the disk refused: nobody knows what is on it.
func (b *Board) reopen() {
	fresh, err := session.OpenFolder(b.cfg.Folder)
	if err != nil {
		return // the next tap is told, and tries again
	}
	_ = b.session.Close() // it is of no use any more
	b.session = fresh
}

// outcomeOf is what became of the tap with a key. A tap that has not come by then is refused from
// now on, should it still arrive: whoever asks taps again.
func (b *Board) outcomeOf(key string) outcome {
	b.taps.Lock()
	defer b.taps.Unlock()
	unknown := outcome{Text: "Nothing was logged by that tap"}
	page, name, _ := strings.Cut(key, "-")
	if !keyed.MatchString(page) || !buttonNames[name] {
		return unknown
	}
	if o, found := b.refused.of(key); found {
		if _, known := b.entry(key); !known {
			return o
		}
	}
	now := b.cfg.Now()
	e, refused, err := b.session.Became(key, now)
	switch {
	case err == nil && refused == nil:
		return b.logged(e)
	case err == nil && !refused.Asked:
		return b.refusedBefore(refused)
	case err == nil:
		return unknown
	}
	if e, found := b.entry(key); found {
		return b.logged(e)
	}
	b.refused.keep(key, outcome{Known: true, Text: unknown.Text + ": tap again", At: b.clock(now), status: http.StatusConflict})
	return unknown
}

// refusedBefore is the outcome of a tap that was refused, perhaps by another board.
func (b *Board) refusedBefore(r *session.Refused) outcome {
	return outcome{Known: true, Text: r.Text, At: b.clock(r.At), status: http.StatusConflict}
}

// What was forgotten is logged as having happened a while ago, where the rules let it.
const (
	back = 10 * time.Minute
	ago  = "10" // in a form
)

// told are the words of a tap.
func told(name string, form url.Values) (session.Told, error) {
	words := strings.Fields(form.Get("do"))
	if f := field[name]; f != "" {
		text := number(form.Get(f))
		if text == "" && name == "mixed" {
			text = number(form.Get("next")) // as the page showed it
		}
		if text == "" {
			return session.Told{}, refuse("press its keys, then tap", "nothing was keyed in for it")
		}
		words = []string{name, text + " " + units[f][0]}
		if name == "flow-cup" {
			words = []string{name, form.Get("cup"), text + " s"}
		}
	} else if ofOne[name] && len(words) != 2 {
		return session.Told{}, refuse("load the page anew and tap again", "the tap does not say which one")
	}
	return session.Told{Words: words}, nil
}

// ofOne are the taps that name what they are of.
var ofOne = map[string]bool{"poured": true, "begin": true, "done": true, "spread": true, "thrown-out": true, "cured": true, "undo": true}

// number reads a field as people fill it: a browser may send a comma where its language has one.
func number(text string) string { return strings.Replace(strings.TrimSpace(text), ",", ".", 1) }

// buttonNames are the taps that there are.
var buttonNames = map[string]bool{
	"mixed": true, "poured": true, "begin": true, "done": true, "pause": true, "resume": true,
	"changed": true, "bath-temp": true, "flow-cup": true, "room": true, "left-over": true,
	"spread": true, "thrown-out": true, "cured": true, "undo": true,
}
