package board

import (
	"net"
	"net/url"
	"strconv"
	"strings"

	"rsc.io/qr"
)

// Addresses are where a board that listens is found: one, or where it listens on all, that
// of each network that the machine is on.
func Addresses(listens net.Addr, token string) []string {
	tcp, ok := listens.(*net.TCPAddr)
	if !ok {
		return nil
	}
	hosts := []net.IP{tcp.IP}
	if tcp.IP.IsUnspecified() {
		hosts = ownHosts()
	}
	path := "/"
	if token != "" {
		path += token + "/"
	}
	list := make([]string, len(hosts))
	for i, host := range hosts {
		u := url.URL{Scheme: "http", Host: net.JoinHostPort(host.String(), strconv.Itoa(tcp.Port)), Path: path}
		list[i] = u.String()
	}
	return list
}

// ownHosts are the machine's addresses in its networks, those that phones use first, and
// its loopback last.
func ownHosts() []net.IP {
	var four, six []net.IP
	found, err := net.InterfaceAddrs()
	if err != nil {
		found = nil // it is reached all the same; only its name is not known here
	}
	for _, address := range found {
		network, ok := address.(*net.IPNet)
		switch {
		case !ok || network.IP.IsLoopback() || network.IP.IsLinkLocalUnicast():
		case network.IP.To4() != nil:
			four = append(four, network.IP)
		default:
			six = append(six, network.IP)
		}
	}
	return append(append(four, six...), net.IPv4(127, 0, 0, 1))
}

// Local tells whether an address is seen from this machine only.
func Local(address string) bool {
	u, err := url.Parse(address)
	return err == nil && Loopback(u.Hostname())
}

// quiet is the margin that a code needs, in its dots.
const quiet = 4

// Code draws an address for a phone's camera, two dots above one another in a character,
// dark on light whatever the terminal's colours are.
func Code(address string) (string, error) {
	code, err := qr.Encode(address, qr.M)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	for y := -quiet; y < code.Size+quiet; y += 2 {
		b.WriteString("\x1b[30;107m")
		for x := -quiet; x < code.Size+quiet; x++ {
			b.WriteRune(halves[[2]bool{code.Black(x, y), code.Black(x, y+1)}])
		}
		b.WriteString("\x1b[0m\n")
	}
	return b.String(), nil
}

// halves are the characters of an upper and a lower dot.
var halves = map[[2]bool]rune{{false, false}: ' ', {true, false}: '▀', {false, true}: '▄', {true, true}: '█'}
