package serve

import (
	"net/http"
	"strings"
)

// Trace Context (W3C Recommendation, 23 November 2021): a request may say which trace it
// is part of. The service asks no other, so it keeps the trace for its log, by which the
// caller's own record of it is found.

// lengths of version 00 and of its parts, 3.2.2.
const (
	traceparentLength = 55
	traceIDLength     = 32
	spanIDLength      = 16
)

// traceOf reads the trace and the caller's span of a request; "" where none is told, it
// is told more than once, or what is told is malformed, which is as none (4.3).
func traceOf(header http.Header) (trace, span string) {
	told := header.Values("Traceparent")
	if len(told) != 1 {
		return "", ""
	}
	text := told[0]
	later := len(text) > traceparentLength && text[traceparentLength] == '-' && !strings.HasPrefix(text, "00")
	if len(text) != traceparentLength && !later {
		return "", ""
	}
	parts := strings.Split(text[:traceparentLength], "-")
	if len(parts) != 4 || !isHex(parts[0], 2) || parts[0] == "ff" || !isHex(parts[1], traceIDLength) ||
		!isHex(parts[2], spanIDLength) || !isHex(parts[3], 2) || zeros(parts[1]) || zeros(parts[2]) {
		return "", ""
	}
	return parts[1], parts[2]
}

// isHex reports whether a text is so many lower-case hexadecimal digits.
func isHex(text string, length int) bool {
	return len(text) == length && strings.Trim(text, "0123456789abcdef") == ""
}

func zeros(text string) bool { return strings.Trim(text, "0") == "" }
