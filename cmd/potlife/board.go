package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/signal"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/board"
	"potlife/cmd/potlife/internal/chart"
	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/warning"
	"potlife/resins/document/visible"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
)

type boardOptions struct {
	session, listen, tokenFile string
	json                       bool
}

func newBoard() *cobra.Command {
	var o boardOptions
	cmd := &cobra.Command{
		Use:   "board",
		Short: "What check says, on a page for gloved hands",
		Long: `board serves a page for a tablet or phone beside the machine: what is surely left in
large figures, what to do, and buttons of a size for gloves that log what happens.

Without --listen only this machine sees it. --listen 192.168.1.20:8080, or :8080 for every
network, opens it to whoever knows its address, which has a random token in it and is printed
here, also as a code that a phone's camera reads. The connection is not encrypted: open it on
the workshop's own network only. Ctrl-C ends it.

The token is kept in the session, in the file board-token that only its owner can read. So a
phone finds the board again after a restart at the same port. Remove the file to lock out
whoever knows the address. --token-file FILE keeps one token for all sessions.` +
			"\n\nExit: 0 ended, 1 failed, 2 wrong input, 4 journal damaged or newer.",
		Args: noArgument,
		RunE: func(cmd *cobra.Command, _ []string) error { return runBoard(cmd, &o) },
		Example: `  potlife board
  potlife board --listen 127.0.0.1:0 --json
  potlife board --listen :0
  potlife board --listen :8080 --token-file hall-token`,
	}
	f := cmd.Flags()
	f.StringVar(&o.session, "session", "", "`folder` of the session; the only open one here if left out")
	f.StringVar(&o.listen, "listen", "127.0.0.1:0", "`address` and port; port 0 takes a free one")
	f.StringVar(&o.tokenFile, "token-file", "", "`file` that keeps the token of the address; made if it is not there")
	f.BoolVar(&o.json, "json", false, "tell the addresses as JSON")
	return cmd
}

func runBoard(cmd *cobra.Command, o *boardOptions) error {
	s, err := openWithResin(o.session)
	if err != nil {
		return err
	}
	folder := s.Folder
	if why := s.Journal.Report().ReadOnly; why != nil {
		tellDoubts(cmd, report.Sentences([]warning.Warning{session.CannotLog{Why: why}}), false)
	}
	if err := s.Close(); err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	host, _, err := net.SplitHostPort(o.listen)
	if err != nil {
		return wrong(fmt.Errorf("--listen %s is no address with a port\n   write it like this: 127.0.0.1:8080, or :8080 for every network", o.listen))
	}
	open := !board.Loopback(host)
	if o.tokenFile != "" && !open {
		return wrong(fmt.Errorf("--token-file goes with --listen: on %s the address needs no token\n   add --listen :8080, or leave it out", o.listen))
	}
	listener, err := net.Listen("tcp", o.listen)
	if err != nil {
		return wrong(fmt.Errorf("--listen %s: %w\n   take an address of this machine and a port that is free; port 0 takes one", o.listen, err))
	}
	defer listener.Close()
	cfg := boardOf(folder, listener.Addr().String(), clock)
	if open {
		token, why, err := tokenOf(folder, o.tokenFile)
		if err != nil {
			return err
		}
		if why != nil {
			tellDoubts(cmd, []string{fmt.Sprintf("the token cannot be kept in %s: after a restart phones need the new address", folder)}, false)
		}
		cfg.Token = token
	}
	b, err := board.New(cfg)
	if err != nil {
		return sessionError(err)
	}
	if err := o.tellAddresses(cmd.OutOrStdout(), folder, board.Addresses(listener.Addr(), cfg.Token), open); err != nil {
		return errors.Join(err, b.Close())
	}
	return errors.Join(b.Serve(ctx, listener), b.Close())
}

// boardOf is the board of a session: what it shows is what check and report say.
func boardOf(folder, host string, now func() time.Time) board.Config {
	o := &checkOptions{} // looks come one after another
	return board.Config{
		Folder: folder, Host: host, Now: now,
		Look: func(now time.Time) (answer *report.Check, err error) {
			defer orFault(&err)
			return lookedAt(folder, o, now)
		},
		Curve: func(now time.Time) (curve []byte, err error) {
			defer orFault(&err)
			return drawnSoFar(folder, now)
		},
		Renew: func(e session.Event) {
			var err error // the next look says the same
			defer orFault(&err)
			renewedIn(folder, e)
		},
	}
}

// orFault makes an error of a panic: the buttons of a board go on, and the crew can log.
func orFault(err *error) {
	if value := recover(); value != nil {
		*err = faultOf(value)
	}
}

// lookedAt opens the session anew: others log meanwhile.
func lookedAt(folder string, o *checkOptions, now time.Time) (*report.Check, error) {
	s, err := session.OpenFolder(folder)
	if err != nil {
		return nil, sessionError(err)
	}
	defer s.Close() // only read
	return checked(s, o, now)
}

// renewedIn asks after a tap whether the plan in force still holds. What it finds wrong is
// found by the next look, too.
func renewedIn(folder string, e session.Event) {
	s, err := session.OpenFolder(folder)
	if err != nil {
		return
	}
	defer s.Close()
	inforce.Renew(s, e, e.Logged, (&morning{}).derive, advice.Dangers)
}

// drawnSoFar is the bath's viscosity up to now as a picture; nil where there is too little
// to be drawn.
func drawnSoFar(folder string, now time.Time) ([]byte, error) {
	s, err := session.OpenFolder(folder)
	if err != nil {
		return nil, sessionError(err)
	}
	defer s.Close() // only read
	journal, err := replay.Read(s)
	if err != nil {
		return nil, sessionError(err)
	}
	if !journal.Ended.IsZero() {
		now = journal.Ended
	}
	day, course, err := dayUntil(s, journal, now)
	if err != nil {
		return nil, err
	}
	if !drawable(day) {
		return nil, nil
	}
	var picture bytes.Buffer
	err = chart.Write(&picture, "svg", withDay(dayViscosity(day, course), day))
	return picture.Bytes(), err
}

// notEncrypted stands below an address that others can open.
const notEncrypted = `The connection is not encrypted: whoever is on this network can read along and
log events. Use the workshop's own network only.
`

// tellAddresses prints where the board is, and for others than this machine what that means.
func (o *boardOptions) tellAddresses(w io.Writer, folder string, addresses []string, open bool) error {
	if o.json {
		return report.WriteLine(w, report.Board{Session: folder, Addresses: addresses, Encrypted: false})
	}
	for i, address := range addresses {
		if i == 0 {
			fmt.Fprintf(w, "%s is on the board at\n  %s\n", visible.Text(folder), address)
			continue
		}
		fmt.Fprintf(w, "  %s\n", address)
	}
	if len(addresses) > 0 && !board.Local(addresses[0]) && terminal(w) {
		code, err := board.Code(addresses[0])
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "\n%s\n", code)
	}
	if open {
		fmt.Fprint(w, notEncrypted)
		if _, port, _ := net.SplitHostPort(o.listen); port == "0" {
			fmt.Fprintln(w, "Port 0 takes another port each time: name one, and phones find the board again.")
		}
	}
	_, err := fmt.Fprintln(w, "Ctrl-C ends it.")
	return err
}
