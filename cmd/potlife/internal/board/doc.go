// Package board serves the shop-floor page: what is left, what to do, and buttons for
// gloved hands that write the journal.
//
// # One page, drawn here
//
// Everything that is shown is drawn on the server, once a second, and all tablets get the
// same bytes: over an event stream where there is JavaScript, as a page that loads itself
// anew every quarter of a minute where there is none. The browser computes nothing of the
// resin and keeps no figures.
//
// # A tap
//
// A tap names its subject, "layer 2 is done" and not "the layer is done", so that a page
// that is a little behind cannot log the wrong one; the rules of package session refuse what
// cannot have happened. It carries the key of the page as it was drawn and is logged once,
// however often it arrives; a tap that was refused stays refused under its key, and so does one of which
// somebody asked what became of it before it came: these keys lie in the folder of the session,
// where another board and the next one find them. A pot of a page that has not seen another one
// is refused under the lock of the journal, whoever logged that. The same
// thing told twice within [settles] is taken for a double tap. A tap has the time at which it
// reached the server, or of ten minutes before that where the crew says so. Without a
// connection nothing is taken and nothing is kept for later.
//
// # Who may look
//
// On a loopback address the Host header must name it, so that no other site's name can be
// turned to it. On any other the address has a random token as its first folder, and without
// it there is nothing to be seen. Posts of other origins, bodies over 8 kB and clients that
// take their time are refused; nothing is fetched from elsewhere. Connections have a limit,
// and whoever holds the most of them open loses its idle ones to newcomers.
//
// # When the session cannot be read
//
// Order and figure of the last answer are struck out and the page says in words what has
// happened and what to do; the same where nothing was read for half a minute. Hazards stand
// on. Errors of the operating system reach no page.
package board
