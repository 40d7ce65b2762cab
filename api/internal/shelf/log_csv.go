package shelf

import (
	"encoding/csv"
	"errors"
	"io"
	"strconv"
	"strings"
	"unicode"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// logHeader is the usual header of a record as CSV.
const logHeader = "time,temperature_c,rh_pct"

// MostLogRows is the longest record.
const MostLogRows = 5000

// logColumns are where a record as CSV has what is read of it.
type logColumns struct {
	time, temperature, rh int
	unit                  string // of the temperature, C or F
	named                 string // the header of the temperature
	commas                bool   // numbers may have a decimal comma
}

// number reads one.
func (at *logColumns) number(text string) (float64, error) {
	text = strings.TrimSpace(text)
	if at.commas && strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		text = strings.Replace(text, ",", ".", 1)
	}
	return strconv.ParseFloat(text, 64)
}

// ReadLog reads a record given as CSV (RFC 4180), with columns between commas, semicolons
// or tabs; between the latter two numbers may have a decimal comma. Errors point at log_csv.
func ReadLog(text string) ([]LoggedAir, error) {
	text = strings.TrimPrefix(text, "\ufeff") // as some programs begin a file
	reader := csv.NewReader(strings.NewReader(text))
	reader.TrimLeadingSpace = true
	first, _, _ := strings.Cut(text, "\n")
	for _, between := range ";\t" {
		if strings.ContainsRune(first, between) && !strings.Contains(first, ",") {
			reader.Comma = between
		}
	}
	header, err := reader.Read()
	if err != nil {
		return nil, badHeader("the first line of a record names its columns, such as " + logHeader)
	}
	at, wrong := columnsOf(header)
	at.commas = reader.Comma != ','
	if wrong != nil {
		return nil, wrong
	}
	var rows []LoggedAir
	for {
		record, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return rows, timesOfRecord(rows)
		}
		if err != nil {
			return nil, inRow("log_csv", len(rows), &method.Error{Code: method.OutOfRange, Limit: method.Between(float64(len(header)), float64(len(header)), "cells"),
				Detail: "it must have as many cells as the header, with every quote closed"})
		}
		if len(rows) == MostLogRows {
			return nil, &method.Error{Code: method.TooMuchWork, Input: "log_csv", Limit: method.AtMost(MostLogRows, "rows"), Detail: "the record has more than 5000 rows; average it to days"}
		}
		row, err := at.row(record)
		if err != nil {
			return nil, inRow("log_csv", len(rows), err)
		}
		rows = append(rows, row)
	}
}

func badHeader(detail string) error {
	return &method.Error{Code: method.OutOfRange, Input: "log_csv", Limit: method.SuchAs(logHeader), Detail: detail}
}

// columnsOf finds the columns by the words of their headers.
func columnsOf(header []string) (logColumns, error) {
	at := logColumns{time: -1, temperature: -1, rh: -1}
	set := func(column *int, i int, what string) error {
		if *column >= 0 {
			return badHeader("a record has one column for the " + what + "; found " + strconv.Quote(header[*column]) + " and " + strconv.Quote(header[i]))
		}
		*column = i
		return nil
	}
	for i, name := range header {
		words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) })
		has := func(some ...string) bool {
			for _, w := range words {
				for _, s := range some {
					if w == s {
						return true
					}
				}
			}
			return false
		}
		var err error
		switch {
		case has("dew", "dewpoint", "wet", "battery", "absolute"):
		case has("time", "date", "datetime", "timestamp"):
			err = set(&at.time, i, "time")
		case has("temperature", "temp", "t"):
			err = set(&at.temperature, i, "temperature")
			at.named = strings.TrimSpace(name)
			switch {
			case has("f", "degf", "fahrenheit"):
				at.unit = "F"
			case has("c", "degc", "celsius"):
				at.unit = "C"
			}
		case has("rh", "humidity", "h"):
			err = set(&at.rh, i, "relative humidity")
		}
		if err != nil {
			return at, err
		}
	}
	switch {
	case at.time < 0:
		return at, badHeader("the header of a record has no column for the time; it is to be like " + logHeader)
	case at.temperature < 0:
		return at, badHeader("the header of a record has no column for the temperature; it is to be like " + logHeader)
	case at.rh < 0:
		return at, badHeader("the header of a record has no column for the relative humidity; it is to be like " + logHeader)
	case at.unit == "":
		return at, badHeader("the header " + strconv.Quote(at.named) + " does not say whether it is C or F; write temperature_c or temperature_f")
	}
	return at, nil
}

// row reads a row.
func (at *logColumns) row(record []string) (LoggedAir, error) {
	degrees, err := at.number(record[at.temperature])
	if err != nil || !quantity.Finite(degrees) {
		return LoggedAir{}, &method.Error{Code: method.OutOfRange, Input: at.named, Limit: method.SuchAs("20.5"),
			Detail: at.named + " must be a number, got " + strconv.Quote(record[at.temperature])}
	}
	rh, err := at.number(strings.TrimSuffix(strings.TrimSpace(record[at.rh]), "%"))
	if err != nil || !(rh >= 0 && rh <= 100) {
		return LoggedAir{}, &method.Error{Code: method.OutOfRange, Input: "rh_pct", Limit: method.Between(0, 100, "%"),
			Detail: "the relative humidity must be a number from 0 to 100, got " + strconv.Quote(record[at.rh])}
	}
	kelvin := quantity.Celsius(degrees)
	if at.unit == "F" {
		kelvin = quantity.Celsius((degrees - 32) / 1.8)
	}
	return LoggedAir{Time: strings.TrimSpace(record[at.time]), Temperature: &wire.Temperature{SI: kelvin, Unit: at.unit}, RH: &rh}, nil
}
