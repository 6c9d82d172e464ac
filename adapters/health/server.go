package health

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/promhttp"
)

// patience bounds how long one look at the program's health may take.
const patience = 5 * time.Second

// Server answers /healthz (the process lives), /readyz (ready says nil) and
// /metrics.
type Server struct {
	listener net.Listener
	server   *http.Server
}

// Listen opens the address, such as "127.0.0.1:9090". Each /readyz asks ready;
// its error's text is shown, so it must hold no secret.
func Listen(address string, metrics prometheus.Gatherer, ready func(context.Context) error) (*Server, error) {
	listener, err := net.Listen("tcp", address)
	if err != nil {
		return nil, fmt.Errorf("health port: %w", err)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) {
		_, _ = fmt.Fprintln(w, "ok")
	})
	mux.HandleFunc("GET /readyz", func(w http.ResponseWriter, r *http.Request) {
		ctx, cancel := context.WithTimeout(r.Context(), patience-time.Second)
		defer cancel()
		if err := ready(ctx); err != nil {
			http.Error(w, err.Error(), http.StatusServiceUnavailable)
			return
		}
		_, _ = fmt.Fprintln(w, "ready")
	})
	mux.Handle("GET /metrics", promhttp.HandlerFor(metrics, promhttp.HandlerOpts{}))
	return &Server{
		listener: listener,
		server:   &http.Server{Handler: mux, ReadHeaderTimeout: patience},
	}, nil
}

// Addr is the address that is listened on, with the port that was chosen.
func (s *Server) Addr() string { return s.listener.Addr().String() }

// Run serves until ctx is done.
func (s *Server) Run(ctx context.Context) error {
	stop := context.AfterFunc(ctx, func() {
		shutdown, cancel := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
		defer cancel()
		if err := s.server.Shutdown(shutdown); err != nil {
			_ = s.server.Close()
		}
	})
	defer stop()
	if err := s.server.Serve(s.listener); !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("health port: %w", err)
	}
	return nil
}

// Ask asks the program that listens on the address whether it is ready. The
// error is one sentence with what /readyz said, or why nothing answered.
func Ask(ctx context.Context, address string) error {
	host, port, err := net.SplitHostPort(address)
	if err != nil {
		return fmt.Errorf("health port: %w", err)
	}
	if ip := net.ParseIP(host); host == "" || ip != nil && ip.IsUnspecified() {
		host = "localhost" // it listens on every address
	}
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+net.JoinHostPort(host, port)+"/readyz", nil)
	if err != nil {
		return fmt.Errorf("health port: %w", err)
	}
	// No proxy of the environment stands between a program and itself.
	client := http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	response, err := client.Do(request)
	if err != nil {
		return fmt.Errorf("nothing answers at the health port %s; is guildhand serve running? (%w)", address, errors.Unwrap(err))
	}
	defer response.Body.Close()
	said, err := io.ReadAll(io.LimitReader(response.Body, 4096))
	if err != nil {
		return fmt.Errorf("health port: %w", err)
	}
	if response.StatusCode != http.StatusOK {
		return fmt.Errorf("not ready: %s", strings.ReplaceAll(strings.TrimSpace(string(said)), "\n", "; "))
	}
	return nil
}
