namespace Portwitness.Captures;

/// <summary>The words for events. An event with another word is passed on, with a fault.</summary>
public static class CaptureEvents
{
    /// <summary>Something was attached to a port.</summary>
    public const string Attach = "attach";

    /// <summary>It was detached.</summary>
    public const string Detach = "detach";

    /// <summary>A load was switched on.</summary>
    public const string LoadOn = "load-on";

    /// <summary>A load was switched off.</summary>
    public const string LoadOff = "load-off";

    /// <summary>The Type-C current that the port shows with Rp; the value is "default", "1.5A" or "3A".</summary>
    public const string Rp = "rp";

    /// <summary>What the data lines show, for example "bc1.2-dcp" in the value.</summary>
    public const string DataLine = "line";

    /// <summary>VBUS was found present.</summary>
    public const string VbusOn = "vbus-on";

    /// <summary>VBUS was found gone.</summary>
    public const string VbusOff = "vbus-off";

    /// <summary>VBUS was found at vSafe0V.</summary>
    public const string VbusSafe0V = "vbus-vsafe0v";

    /// <summary>The receiver took no notice of the message before, because it did not count the port as attached.</summary>
    public const string Dropped = "dropped";

    /// <summary>The message before was sent and no GoodCRC came.</summary>
    public const string NotAcknowledged = "not-acknowledged";

    /// <summary>The message before was given up without having been sent.</summary>
    public const string NotSent = "not-sent";

    private static readonly HashSet<string> Words =
    [
        Attach, Detach, LoadOn, LoadOff, Rp, DataLine, VbusOn, VbusOff, VbusSafe0V, Dropped, NotAcknowledged, NotSent,
    ];

    /// <summary>All words.</summary>
    public static IReadOnlyCollection<string> All => Words;

    /// <summary>Whether the word is one of these.</summary>
    public static bool IsKnown(string name) => Words.Contains(name);
}
