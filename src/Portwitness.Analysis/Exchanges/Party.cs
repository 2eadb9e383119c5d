namespace Portwitness.Analysis.Exchanges;

/// <summary>Who did something. Only the source's faults count against the product.</summary>
internal enum Party
{
    /// <summary>The port that supplies: the product, unless power roles were swapped.</summary>
    Source,

    /// <summary>The port that is supplied: the test device.</summary>
    Sink,

    /// <summary>The cable's marker.</summary>
    CablePlug,

    /// <summary>A port, of which the capture does not say which.</summary>
    Unsure,
}

/// <summary>Names of parties in sentences.</summary>
internal static class Parties
{
    /// <summary>"the source".</summary>
    public static string ToText(this Party party) => party switch
    {
        Party.Source => "the source",
        Party.Sink => "the sink",
        Party.CablePlug => "the cable's marker",
        _ => "a port",
    };
}
