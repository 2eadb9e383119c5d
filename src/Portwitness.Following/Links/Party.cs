namespace Portwitness.Following.Links;

/// <summary>Who did something. Only the source's faults count against the product.</summary>
public enum Party
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
