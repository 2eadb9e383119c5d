using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>What an EPR_Mode message does (R3.2v1.1, Table 6.50). Other codes are reserved.</summary>
public enum EprModeAction
{
    /// <summary>The sink asks to enter; the data is its EPR Sink Operational PDP in watts.</summary>
    Enter = 1,

    /// <summary>The source has received it.</summary>
    EnterAcknowledged = 2,

    /// <summary>EPR mode is entered.</summary>
    EnterSucceeded = 3,

    /// <summary>EPR mode is not entered; the data is the reason.</summary>
    EnterFailed = 4,

    /// <summary>Either partner leaves EPR mode.</summary>
    Exit = 5,
}

/// <summary>The object of an EPR_Mode message, EPRMDO (R3.2v1.1, Table 6.50), since R3.1. Any word is kept.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct EprModeObject(uint Raw)
{
    private static readonly BitField ActionField = new BitField("Action", 31, 24).Codes(
        (1, "Enter"), (2, "Enter Acknowledged"), (3, "Enter Succeeded"), (4, "Enter Failed"), (5, "Exit"));

    private static readonly BitField DataField = new BitField("Data", 23, 16).Means((word, raw) =>
        (EprModeAction)(word >> 24) switch
        {
            EprModeAction.Enter => $"EPR Sink Operational PDP {Power.FromMilliwatts((int)raw * 1000)}",
            EprModeAction.EnterFailed => new EprModeObject(word).FailureReason,
            _ => null,
        });


    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } =
        new("EPR Mode Data Object", 32, "R3.2v1.1 Table 6.50", ActionField, DataField, BitField.Reserved(15, 0));

    /// <summary>The action; a reserved code is its number.</summary>
    public EprModeAction Action => (EprModeAction)ActionField.Get(Raw);

    /// <summary>Watts of Enter, reason of Enter Failed, zero otherwise.</summary>
    public int Data => (int)DataField.Get(Raw);

    /// <summary>The standard's name of the action; "reserved (6)" for others.</summary>
    public string ActionName => ActionField.Describe(Raw);

    /// <summary>Why entering failed, in words; null for other actions.</summary>
    public string? FailureReason => Action != EprModeAction.EnterFailed ? null : Data switch
    {
        0 => "unknown cause",
        1 => "the cable is not EPR capable",
        2 => "the source did not become the VCONN source",
        3 => "EPR Capable is not set in the request",
        4 => "the source cannot enter EPR mode now",
        5 => "EPR Capable is not set in the first power data object",
        _ => $"reserved ({Data})",
    };

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit its field.</exception>
    public static EprModeObject Create(EprModeAction action, int data = 0) =>
        new(DataField.SetScaled(ActionField.SetScaled(0, (int)action), data));
}
