package board

import (
	"crypto/subtle"
	"net"
	"net/http"
	"strings"
)

// longestBody is far more than the form has.
const longestBody = 8 << 10

// policy lets the page use what comes from its own address and nothing else.
const policy = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; " +
	"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// Handler is everything that is served.
func (b *Board) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", b.page)
	mux.HandleFunc("POST /tap", b.tap)
	mux.HandleFunc("GET /tap", b.became)
	mux.HandleFunc("GET /stream", b.stream)
	mux.HandleFunc("GET /curve.svg", b.curve)
	for _, name := range assetNames {
		mux.HandleFunc("GET /"+name, serveAsset(name))
	}
	guarded := http.NewCrossOriginProtection().Handler(limited(mux))
	if b.cfg.Token != "" {
		guarded = behind(b.cfg.Token, guarded)
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		headers(w.Header())
		if !b.known(r.Host) {
			http.Error(w, "this address is not served here", http.StatusMisdirectedRequest)
			return
		}
		guarded.ServeHTTP(w, r)
	})
}

// behind serves what is asked for in the folder of the token, and nothing else.
func behind(token string, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		first, rest, inside := strings.Cut(strings.TrimPrefix(r.URL.Path, "/"), "/")
		if subtle.ConstantTimeCompare([]byte(first), []byte(token)) != 1 {
			w.Header().Set("Connection", "close") // a stranger holds none open
			http.NotFound(w, r)
			return
		}
		if !inside {
			w.Header().Set("Location", "/"+token+"/")
			w.WriteHeader(http.StatusSeeOther)
			return
		}
		within := r.Clone(r.Context())
		within.URL.Path, within.URL.RawPath = "/"+rest, ""
		next.ServeHTTP(w, within)
	})
}

func headers(h http.Header) {
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
}

// known tells whether a Host header is the address that is listened on. Behind a token
// any will do: a foreign name that was turned to this machine does not know the token.
func (b *Board) known(host string) bool {
	if b.cfg.Token != "" {
		return true
	}
	_, served, err := net.SplitHostPort(b.cfg.Host)
	if err != nil {
		return false
	}
	name, port, err := net.SplitHostPort(host)
	if err != nil {
		name, port = strings.Trim(host, "[]"), "80" // the port that is left out
	}
	return port == served && Loopback(name)
}

// Loopback tells whether a host is this machine and nobody else.
func Loopback(host string) bool {
	if strings.EqualFold(host, "localhost") {
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}

// limited refuses a body that says it is too long at once, and cuts off one that does not.
func limited(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.ContentLength > longestBody {
			http.Error(w, "this is more than the form has", http.StatusRequestEntityTooLarge)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, longestBody)
		next.ServeHTTP(w, r)
	})
}
