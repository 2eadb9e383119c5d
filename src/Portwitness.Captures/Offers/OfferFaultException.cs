namespace Portwitness.Captures.Offers;

/// <summary>A text is no offer; the message quotes it and says what was expected.</summary>
public sealed class OfferFaultException(string detail) : Exception(detail);
