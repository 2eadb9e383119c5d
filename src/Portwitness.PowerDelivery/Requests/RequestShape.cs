namespace Portwitness.PowerDelivery.Requests;

/// <summary>The shapes of Request Data Object (R3.2v1.1, Tables 6.23 to 6.26).</summary>
public enum RequestShape
{
    /// <summary>The selected object is of a reserved kind, or not known.</summary>
    Unknown,

    /// <summary>Of a fixed or variable supply, Table 6.23.</summary>
    FixedVariable,

    /// <summary>Of a battery supply, Table 6.24.</summary>
    Battery,

    /// <summary>Of a programmable supply, Table 6.25.</summary>
    Pps,

    /// <summary>Of an adjustable voltage supply, SPR or EPR, Table 6.26.</summary>
    Avs,
}
