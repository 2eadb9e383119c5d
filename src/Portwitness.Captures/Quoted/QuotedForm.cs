namespace Portwitness.Captures.Quoted;

/// <summary>How a quoted text writes objects.</summary>
public enum QuotedForm
{
    /// <summary>As 32-bit words: 0x0801912C.</summary>
    Words,

    /// <summary>As bytes, the lowest first: 2C 91 01 08.</summary>
    Bytes,
}
