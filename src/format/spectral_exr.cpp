// Spectra in OpenEXR (Fichet, Pacanowski & Wilkie 2021, "An OpenEXR Layout for Spectral Images", JCGT 10(3)): a
// reflective channel is named T, a dot, the wavelength with six decimals after a comma (the dot parts layers in
// OpenEXR), and its unit. With three digits before the comma sorting by name is sorting by wavelength; the file stays
// valid beyond, readers sort by the number.

#include "foretone/format/spectral_exr.hpp"

#include <algorithm>
#include <charconv>
#include <stdexcept>

#include "foretone/spectral/text.hpp"

namespace foretone::format {

std::string reflective_channel(double wavelength_nm) {
    char buffer[32];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, wavelength_nm, std::chars_format::fixed, 6).ptr;
    std::string number(buffer, end);
    std::replace(number.begin(), number.end(), '.', ',');
    return "T." + number + "nm";
}

std::vector<std::uint8_t> spectral_exr(const SpectralImage& image, Precision precision, const ExrHead& head) {
    const auto& nm = image.wavelength_nm;
    if (nm.empty() || nm.size() != image.planes.size())
        throw std::invalid_argument("format::spectral_exr: " + std::to_string(nm.size()) + " wavelengths for " +
                                    std::to_string(image.planes.size()) + " planes");
    for (std::size_t i = 0; i < nm.size(); ++i)
        if (!(nm[i] >= 100 && nm[i] <= 10000) || (i > 0 && nm[i] <= nm[i - 1]))
            throw std::invalid_argument("format::spectral_exr: wavelengths rise from 100 to 10000 nm, number " +
                                        std::to_string(i + 1) + " is " + spectral::text(nm[i]));
    std::vector<ExrChannel> channels = rgb_channels(image.rgb);
    for (std::size_t i = 0; i < nm.size(); ++i) channels.push_back({reflective_channel(nm[i]), image.planes[i]});
    ExrHead whole = head;
    whole.texts.emplace_back("spectralLayoutVersion", "1.0");
    return encode_exr(image.width, image.height, channels, precision, whole);
}

}  // namespace foretone::format
