using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Requests;

/// <summary>Puts the shared high bits of a request in front of those of its shape.</summary>
internal static class RequestLayouts
{
    /// <summary>R3.1 and later: four bits of object position, EPR Capable.</summary>
    /// <param name="name">The name of the layout.</param>
    /// <param name="clause">Edition and table.</param>
    /// <param name="bit27">GiveBack, or reserved.</param>
    /// <param name="low">Bits 21 to 0.</param>
    internal static BitLayout Since31(string name, string clause, BitField bit27, params BitField[] low) => new(
        name, 32, clause,
        [
            RequestObject.ObjectPositionField, bit27, RequestObject.CapabilityMismatchField,
            RequestObject.UsbCommunicationsCapableField, RequestObject.NoUsbSuspendField, RequestObject.UnchunkedField,
            RequestObject.EprCapableField, .. low,
        ]);

    /// <summary>R2.0 and R3.0: three bits of object position below a reserved bit, no EPR.</summary>
    /// <param name="name">The name of the layout.</param>
    /// <param name="bit27">GiveBack, or reserved.</param>
    /// <param name="low">Bits 22 to 0.</param>
    internal static BitLayout Before31(string name, BitField bit27, params BitField[] low) => new(
        name, 32, "R3.0 6.4.2",
        [
            BitField.Reserved(31, 31), RequestObject.ObjectPositionBeforeR31Field, bit27,
            RequestObject.CapabilityMismatchField, RequestObject.UsbCommunicationsCapableField,
            RequestObject.NoUsbSuspendField, RequestObject.UnchunkedField, .. low,
        ]);
}
