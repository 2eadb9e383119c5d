using System.Security.Cryptography;
using System.Text;
using Google.Protobuf;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>What was received, each file once, with the hash of its bytes: a report says what it was made from.</summary>
internal sealed class InputHashes : IDisposable
{
    private readonly Dictionary<string, (IncrementalHash Hash, long Bytes)> _open = [];
    private readonly List<Wire.JudgedFile> _files = [];

    /// <summary>A text that came whole.</summary>
    public void AddText(string file, string text)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        Add(file, bytes.Length, SHA256.HashData(bytes));
    }

    /// <summary>A piece of a file.</summary>
    public void Add(string file, ByteString piece)
    {
        (IncrementalHash hash, long bytes) = _open.TryGetValue(file, out var open) ? open : (IncrementalHash.CreateHash(HashAlgorithmName.SHA256), 0);
        hash.AppendData(piece.Span);
        _open[file] = (hash, bytes + piece.Length);
    }

    /// <summary>A file has ended.</summary>
    public void End(string file)
    {
        if (_open.Remove(file, out (IncrementalHash Hash, long Bytes) open))
        {
            using (open.Hash)
            {
                Add(file, open.Bytes, open.Hash.GetHashAndReset());
            }
        }
        else
        {
            Add(file, 0, SHA256.HashData([]));
        }
    }

    /// <summary>Adds all files that ended to a report.</summary>
    public void AddTo(Wire.ProductReport report) => report.Inputs.AddRange(_files);

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach ((IncrementalHash hash, _) in _open.Values)
        {
            hash.Dispose();
        }
    }

    // A capture whose measurements are joined in is asked for once for each port.
    private void Add(string file, long bytes, byte[] hash)
    {
        Wire.JudgedFile input = new() { File = file, Bytes = bytes, Sha256 = Convert.ToHexStringLower(hash) };
        if (!_files.Contains(input))
        {
            _files.Add(input);
        }
    }
}
