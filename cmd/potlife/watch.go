package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"potlife/cmd/potlife/internal/report"
	"potlife/resins/document/visible"
	"potlife/schedule/session"
)

// refresh is how often a watch looks again: a crew reads minutes.
const refresh = 5 * time.Second

// watch keeps the answer on the terminal until it is interrupted or the session is
// finished.
func watch(cmd *cobra.Command, folder string, o *checkOptions) error {
	if o.at != "" || o.pause != "" {
		return wrong(errors.New("--watch shows what is now\n   leave out --at and --pause, or ask them without --watch"))
	}
	ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt)
	defer stop()
	ticker := time.NewTicker(refresh)
	defer ticker.Stop()
	w := &watcher{out: cmd.OutOrStdout(), json: o.json, screen: terminal(cmd.OutOrStdout()) && !o.json}
	return w.keep(ctx, ticker.C, func() (*report.Check, error) {
		// Opened anew each time: others log meanwhile.
		s, err := session.OpenFolder(folder)
		if err != nil {
			return nil, sessionError(err)
		}
		defer s.Close()
		return checked(s, o, clock())
	})
}

// A watcher shows one answer after another.
type watcher struct {
	out    io.Writer
	json   bool
	screen bool // a terminal, that can be cleared
	shown  bool // an answer stands on it
	alarm  report.Alarm
}

// size is that of the terminal; a pipe has none.
func (w *watcher) size() report.Screen {
	f, ok := w.out.(*os.File)
	if !w.screen || !ok {
		return report.Screen{}
	}
	width, height, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return report.Screen{}
	}
	return report.Screen{Width: width, Height: height}
}

// keep shows what look finds, at once and at every tick. It ends without an error when ctx
// does or when the session is finished, and with the error of a look.
func (w *watcher) keep(ctx context.Context, ticks <-chan time.Time, look func() (*report.Check, error)) error {
	for {
		answer, err := look()
		if err != nil {
			return errors.Join(err, w.clear())
		}
		if err := w.show(answer); err != nil || answer.Finished() {
			return err
		}
		select {
		case <-ctx.Done():
			return nil
		case <-ticks:
		}
	}
}

// The codes of a terminal: go home and clear what is there; the bell.
const (
	clearScreen = "\x1b[H\x1b[2J"
	bell        = "\a"
)

// show writes one answer in one piece, so that a terminal does not flicker.
func (w *watcher) show(answer *report.Check) error {
	var page bytes.Buffer
	if w.json {
		if err := report.WriteLine(&page, answer); err != nil {
			return err
		}
	} else {
		if w.screen {
			page.WriteString(clearScreen)
		}
		answer.Large(visible.Writer(&page), w.size(), clock())
		if ring := w.bell(answer.Alarm()); w.screen {
			page.WriteString(ring)
		} else {
			fmt.Fprintln(&page)
		}
	}
	w.shown = true
	_, err := w.out.Write(page.Bytes())
	return err
}

// clear takes the last answer off the terminal: where none can be had any more it is no order,
// and nobody would read the error below its large figures. It rings, as for a danger.
func (w *watcher) clear() error {
	if !w.screen || !w.shown {
		return nil
	}
	_, err := io.WriteString(w.out, clearScreen+strings.Repeat(bell, 3))
	return err
}

// bell rings once when the reserve is reached, three times when nothing is left or something is dangerous; after a
// change of the bath it can ring again.
func (w *watcher) bell(now report.Alarm) string {
	before := w.alarm
	w.alarm = now
	if now <= before {
		return ""
	}
	if now >= report.LifeOver {
		return strings.Repeat(bell, 3)
	}
	return bell
}
