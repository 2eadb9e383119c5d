using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.PowerDelivery.Explanations;

/// <summary>Every layout of a data block, and which message has which.</summary>
public static class BlockLayouts
{
    private static readonly Dictionary<MessageKind, BlockLayout> OfMessages = new()
    {
        [MessageKind.SourceCapabilitiesExtended] = SourceCapabilitiesExtendedBlock.Layout,
        [MessageKind.Status] = StatusBlock.Layout,
        [MessageKind.GetBatteryCap] = BatteryReferenceBlock.Layout,
        [MessageKind.GetBatteryStatus] = BatteryReferenceBlock.Layout,
        [MessageKind.BatteryCapabilities] = BatteryCapabilitiesBlock.Layout,
        [MessageKind.GetManufacturerInfo] = GetManufacturerInfoBlock.Layout,
        [MessageKind.ManufacturerInfo] = ManufacturerInfoBlock.Layout,
        [MessageKind.SecurityRequest] = OpaqueBlock.Layout,
        [MessageKind.SecurityResponse] = OpaqueBlock.Layout,
        [MessageKind.FirmwareUpdateRequest] = OpaqueBlock.Layout,
        [MessageKind.FirmwareUpdateResponse] = OpaqueBlock.Layout,
        [MessageKind.PPSStatus] = PpsStatusBlock.Layout,
        [MessageKind.CountryInfo] = CountryInfoBlock.Layout,
        [MessageKind.CountryCodes] = CountryCodesBlock.Layout,
        [MessageKind.SinkCapabilitiesExtended] = SinkCapabilitiesExtendedBlock.Layout,
        [MessageKind.ExtendedControl] = ExtendedControlBlock.Layout,
        [MessageKind.EPRSourceCapabilities] = EprCapabilitiesBlock.Layout,
        [MessageKind.EPRSinkCapabilities] = EprCapabilitiesBlock.Layout,
        [MessageKind.VendorDefinedExtended] = VendorDefinedExtendedBlock.Layout,
    };

    /// <summary>All, each once.</summary>
    public static IReadOnlyList<BlockLayout> All { get; } =
        [.. OfMessages.Values.Append(CablePlugStatusBlock.Layout).Distinct()];

    /// <summary>The layout of a message's data block; null for a reserved type and for other classes.</summary>
    /// <param name="kind">The message.</param>
    /// <param name="sop">Status of a cable plug is not that of a port.</param>
    public static BlockLayout? For(MessageKind kind, SopKind sop) => kind == MessageKind.Status && sop != SopKind.Sop
        ? CablePlugStatusBlock.Layout
        : OfMessages.GetValueOrDefault(kind);
}
