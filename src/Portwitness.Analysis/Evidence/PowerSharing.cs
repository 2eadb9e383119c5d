namespace Portwitness.Analysis.Evidence;

/// <summary>Whether a port's power can be reduced because of other ports.</summary>
public enum PowerSharing
{
    /// <summary>Not known.</summary>
    Unknown,

    /// <summary>The product has one port, or the port is guaranteed.</summary>
    None,

    /// <summary>The product has several ports; alone, this one may still be managed.</summary>
    Possible,

    /// <summary>Other ports were in use during the capture, or the port said itself that its power was reduced.</summary>
    InUse,
}
