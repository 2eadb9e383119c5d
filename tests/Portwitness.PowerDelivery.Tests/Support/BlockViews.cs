using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.PowerDelivery.Tests.Support;

/// <summary>The typed view of each data block; printing one calls all its accessors.</summary>
internal static class BlockViews
{
    public static readonly Dictionary<string, Func<DataBlock, object>> ByLayout = new()
    {
        [SourceCapabilitiesExtendedBlock.Layout.Name] = block => new SourceCapabilitiesExtendedBlock(block),
        [SinkCapabilitiesExtendedBlock.Layout.Name] = block => new SinkCapabilitiesExtendedBlock(block),
        [StatusBlock.Layout.Name] = block => new StatusBlock(block),
        [CablePlugStatusBlock.Layout.Name] = block => new CablePlugStatusBlock(block),
        [PpsStatusBlock.Layout.Name] = block => new PpsStatusBlock(block),
        [BatteryCapabilitiesBlock.Layout.Name] = block => new BatteryCapabilitiesBlock(block),
        [BatteryReferenceBlock.Layout.Name] = block => new BatteryReferenceBlock(block),
        [GetManufacturerInfoBlock.Layout.Name] = block => new GetManufacturerInfoBlock(block),
        [ManufacturerInfoBlock.Layout.Name] = block => new ManufacturerInfoBlock(block),
        [CountryInfoBlock.Layout.Name] = block => new CountryInfoBlock(block),
        [CountryCodesBlock.Layout.Name] = block => new CountryCodesBlock(block),
        [ExtendedControlBlock.Layout.Name] = block => new ExtendedControlBlock(block),
        [OpaqueBlock.Layout.Name] = block => new OpaqueBlock(block),
        [VendorDefinedExtendedBlock.Layout.Name] = block => new VendorDefinedExtendedBlock(block),
        [EprCapabilitiesBlock.Layout.Name] = block => new EprCapabilitiesBlock(block),
    };

    public static string Print(BlockLayout layout, DataBlock block) => ByLayout[layout.Name](block).ToString()!;
}
