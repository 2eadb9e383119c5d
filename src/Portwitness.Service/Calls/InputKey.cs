using System.Security.Cryptography;
using Google.Protobuf;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>What makes an input the same: the bytes of its files, the options that the result depends on, and the tool's version.</summary>
internal static class InputKey
{
    /// <summary>64 hexadecimal digits. What the product's own file is called does not count, nor whether plots are wanted.</summary>
    public static string Of(Wire.CheckOptions options, Wire.ProductReport report)
    {
        Wire.CheckOptions own = options.Clone();
        own.Plots = false;
        if (own.Product is { } product)
        {
            product.File = "";
        }

        if (own.Capture is { } capture)
        {
            capture.File = "";
        }

        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Add(own.ToByteArray());
        Add(System.Text.Encoding.UTF8.GetBytes(report.ToolVersion));
        foreach (Wire.JudgedFile input in report.Inputs.Skip(options.Product is null ? 0 : 1))
        {
            Wire.JudgedFile counted = input.Clone();
            counted.File = options.Product is null ? "" : input.File;
            Add(counted.ToByteArray());
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());

        // The length before each part keeps parts apart.
        void Add(byte[] part)
        {
            hash.AppendData(BitConverter.GetBytes(part.LongLength));
            hash.AppendData(part);
        }
    }
}
