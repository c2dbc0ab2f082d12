package money

import "strings"

// Codes by minor unit: the active codes of ISO 4217 as listed in the public
// data set "currency codes" (state of 1 February 2026), those without a minor
// unit left out. Each code is followed by a space, so that a three-letter code
// is found at a multiple of four.
const (
	noDecimals  = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF "
	twoDecimals = "AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD " +
		"BTN BWP BYN BZD CAD CDF CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP " +
		"ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR " +
		"JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU " +
		"MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR " +
		"RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS " +
		"TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG "
	threeDecimals = "BHD IQD JOD KWD LYD OMR TND "
	fourDecimals  = "CLF UYW "

	// Withdrawn codes that the European Central Bank's history has a column
	// for. The data set gives no minor unit for them: two is from memory.
	withdrawn = "BGN CYP EEK HRK LTL LVL MTL ROL SIT SKK TRL "
)

// minorUnit finds the decimals of a currency; ok is false for an unknown one.
func minorUnit(c Currency) (digits int32, ok bool) {
	switch {
	case listed(twoDecimals, c), listed(withdrawn, c):
		return 2, true
	case listed(noDecimals, c):
		return 0, true
	case listed(threeDecimals, c):
		return 3, true
	case listed(fourDecimals, c):
		return 4, true
	}
	return 0, false
}

// listed reports whether c is one of the codes of list.
func listed(list string, c Currency) bool {
	if len(c) != 3 {
		return false
	}
	return strings.Contains(list, string(c)+" ") && !strings.Contains(string(c), " ")
}
