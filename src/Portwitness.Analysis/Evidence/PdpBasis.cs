using System.Diagnostics;

namespace Portwitness.Analysis.Evidence;

/// <summary>How the PD power of a port is known.</summary>
public enum PdpBasis
{
    /// <summary>It is not.</summary>
    None,

    /// <summary>The port itself states it.</summary>
    Declared,

    /// <summary>It is printed for the port.</summary>
    Printed,

    /// <summary>Only the list shows it.</summary>
    Derived,
}

/// <summary>Names of what a power is known by.</summary>
public static class PdpBasisNames
{
    /// <summary>As reports name it; empty where no power is known.</summary>
    public static string ToText(this PdpBasis basis) => basis switch
    {
        PdpBasis.None => "",
        PdpBasis.Declared => "declared",
        PdpBasis.Printed => "printed",
        PdpBasis.Derived => "derived from the list",
        _ => throw new UnreachableException(),
    };
}
