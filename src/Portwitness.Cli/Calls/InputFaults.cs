using Portwitness.Captures;
using Portwitness.Product;

namespace Portwitness.Cli.Calls;

/// <summary>Faults that a person has to hear of, wherever the report goes.</summary>
internal static class InputFaults
{
    private static readonly string[] Codes =
        [ProductFaultCodes.FileMissing, FaultCodes.FormatUnknown, FaultCodes.Empty, FaultCodes.NotUtf8, FaultCodes.SysfsSeveralPorts, FaultCodes.SignalUnsettled];

    /// <summary>Whether a fault says that a whole file could not be had or read.</summary>
    public static bool AreOfWholeFiles(string code) => Codes.Contains(code);
}
